/** What each role is shown of a child: alerts that protect it always, the diagnosis only who treats it. */

import { describe, expect, it } from 'vitest';
import { expectedSizes } from '../../src/pages/child/expected-sizes.js';
import { VisitPage } from '../../src/pages/child/visit-page.js';
import { WorkshopSlipPage } from '../../src/pages/child/workshop-slip-page.js';
import { formatFor } from '../../src/pages/parts/format.js';
import { renderPage } from '../../src/pages/parts/page-context.js';
import { WantedRow } from '../../src/pages/parts/wanted-row.js';
import { LettersPage } from '../../src/pages/recall/letters-page.js';
import type { RecallEntry } from '../../src/recall/contract.js';
import type { ChildRecord } from '../../src/records/caseload.js';
import type { Child, ConditionId } from '../../src/records/records.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { childVisibleTo, recordVisibleTo } from '../../src/store/records/visible-to.js';
import { familyWords } from '../../src/words/family/family-languages.js';
import { buildChild } from '../forecast/build-record.js';
import { exampleEntry } from '../recall/example-entry.js';

const today = '2026-11-25';
const built = buildChild(today, 8, {
  sex: 'female',
  conditions: ['myelomeningocele-high'],
  affectedSide: 'left',
  insensateSkin: true,
  latexAlert: true,
  palliative: true,
  gestationWeeks: 30,
  extra: { ward: 'x' },
})
  .device('solid-afo', 'left', 5, { extra: { ward: 'x' } })
  .event('verdict', 1, { verdict: 'good', note: 'a word of the clinician' })
  .marker('menarche', 1);
const record = {
  ...built.record,
  skinChecks: [{ id: 's', state: 'open' }],
} as unknown as ChildRecord;
const actor = (role: string) => ({ userId: 'u', name: 'n', role }) as never;

describe.each(['scheduler', 'administrator', 'auditor'])('a %s', (role) => {
  const seen = recordVisibleTo(actor(role), record);
  it('sees that skin cannot warn and latex harms', () => {
    expect(seen.child).toMatchObject({ insensateSkin: true, latexAlert: true });
    expect(childVisibleTo(actor(role), record.child)).toEqual(seen.child);
  });
  it('sees that latex harms where only the diagnosis says so', () =>
    expect(
      ['myelomeningocele-low', 'cerebral-palsy'].map(
        (c) =>
          childVisibleTo(actor(role), { ...record.child, latexAlert: false, conditions: [c as ConditionId] })
            .latexAlert,
      ),
    ).toEqual([true, false]));
  it('sees no diagnosis, marker, skin check or note', () => {
    expect(seen.child).toMatchObject({
      conditions: [],
      affectedSide: 'none',
      palliative: false,
      gestationWeeks: null,
      extra: {},
    });
    expect([seen.markers, seen.skinChecks, seen.events[0].note, seen.devices[0].extra]).toEqual([
      [],
      [],
      '',
      {},
    ]);
  });
});

it.each(['clinician', 'system', 'family'])('a %s sees the whole record', (role) => {
  expect(recordVisibleTo(actor(role), record)).toEqual(record);
});

describe('who treats the child or makes its device', () => {
  const format = formatFor('en-GB');
  const context = { today, format, user: { role: 'clinician' }, unsigned: [], path: '/', csrf: '' };
  const typed = {
    sizes: expectedSizes(record, null, today),
    usual: [],
    typed: {},
    errors: {},
    doubts: {},
    remarks: {},
  };
  const visit = { ...typed, devices: [], rules: loadRules(), unit: 'mm', date: today, observer: '' } as const;
  const slip = { device: record.devices[0], rows: [], fittedBy: null, neededBy: null };
  const pages = {
    visit: (child: Child) => <VisitPage child={child} {...visit} />,
    slip: (child: Child) => <WorkshopSlipPage child={child} rule={null} slip={slip} />,
  };
  const alertsOn = (page: keyof typeof pages, child: Child) =>
    (/<ul class="alerts".*?<\/ul>/s.exec(renderPage(pages[page](child), context as never)) ?? [''])[0];

  it.each(['visit', 'slip'] as const)('reads every alert first, on the page of the %s', (page) => {
    const { child } = record;
    expect(alertsOn(page, child)).toMatch(
      /Skin cannot warn.*Pain is no sign.*Latex.*Use nothing.*Palliative/is,
    );
    const ticked = { ...child, latexAlert: false, insensateSkin: false, palliative: false };
    expect(alertsOn(page, ticked), 'spina bifida').toMatch(/Use nothing that contains it/);
    expect(alertsOn(page, ticked)).not.toMatch(/skin|palliative/);
    expect(alertsOn(page, { ...ticked, latexAlert: true, conditions: [] })).toMatch(/Use nothing/);
    expect(alertsOn(page, { ...ticked, conditions: ['cerebral-palsy'] })).toBe('');
  });
});

describe('the recall list', () => {
  const context = (role: string) =>
    ({ today, format: formatFor('en-GB'), user: { role }, unsigned: [], path: '/', csrf: '' }) as never;
  const rowOf = (over: Partial<RecallEntry>, language = 'en') =>
    ({
      id: 'r',
      childId: 'c',
      childName: 'Ida',
      contact: '',
      language,
      state: 'to-call',
      transportDays: [],
      entry: exampleEntry(over),
    }) as never;

  it('every row of the list shows its alerts, whoever reads it', () => {
    for (const role of ['clinician', 'scheduler']) {
      const row = rowOf({ alerts: ['skin-cannot-warn', 'latex'] });
      const shown = renderPage(
        <WantedRow row={row} why="">
          call
        </WantedRow>,
        context(role),
      );
      expect(shown).toMatch(/Skin cannot warn/i);
      expect(shown).toMatch(/Latex/i);
    }
  });

  it('what cannot wait is rung today, and what is late says so', () => {
    const shown = (over: Partial<RecallEntry>) =>
      renderPage(
        <WantedRow row={rowOf(over)} why="">
          call
        </WantedRow>,
        context('scheduler'),
      );
    for (const action of ['see-now', 'repair'] as const) expect(shown({ action })).toContain('ring today');
    expect(shown({ action: 'cast', late: true })).toMatch(/class="tag due">late</);
    expect(shown({ action: 'cast', late: false })).not.toMatch(/ring today|>late</);
  });

  it.each(['en', 'es'])(
    'its letters (%s) put off nothing that is urgent, and wait for no pain where skin cannot warn',
    (language) => {
      const words = familyWords(language);
      const devices = [{ family: 'solid-afo', side: 'left', beyondUseSince: null }] as never;
      const letter = (over: Partial<RecallEntry>) =>
        renderPage(
          <LettersPage
            languages={[]}
            rows={[rowOf({ devices, ...over }, language)]}
            contact=""
            rules={loadRules()}
          />,
          context('scheduler'),
        ).replaceAll('&#39;', "'");
      expect(letter({ action: 'see-now' })).toContain(words.visitToday);
      expect(letter({ action: 'repair' })).toContain(words.visitToday);
      expect(letter({ action: 'cast' })).not.toContain(words.visitToday);
      const [numb, feels] = [letter({ alerts: ['skin-cannot-warn'] }), letter({ alerts: [] })];
      expect(numb).toContain(words.doNotWait(true));
      expect(numb).not.toContain(words.doNotWait(false));
      expect(feels).toContain(words.doNotWait(false));
      const looked = (text: string, insensate: boolean) =>
        words.signs('ankle-foot', insensate).signs.every((sign) => text.includes(sign));
      expect([looked(numb, true), looked(feels, false), looked(feels, true)]).toEqual([true, true, false]);
    },
  );
});
