/** What must stand on every family's sheet, in every language: read off the page itself. */
import { describe, expect, it } from 'vitest';
import { devicesTold, FamilyPage } from '../../src/pages/family/family-page.js';
import { NOT_DRAWN } from '../../src/pages/parts/chart.js';
import { formatFor } from '../../src/pages/parts/format.js';
import { Layout } from '../../src/pages/parts/layout.js';
import { renderPage } from '../../src/pages/parts/page-context.js';
import { LettersPage } from '../../src/pages/recall/letters-page.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { familyLanguages, familyWords } from '../../src/words/family/family-languages.js';
import { wornDevice } from '../../src/words/family/worn-device.js';
import { buildChild } from '../forecast/build-record.js';

const TODAY = '2026-11-27';
const context = {
  user: { role: 'clinician' },
  csrf: '',
  once: '',
  format: formatFor('en-GB'),
  today: TODAY,
  clinicName: 'Alder',
  demo: false,
  unsigned: ['Fit limits'],
  path: '/',
  notice: '',
} as never;

const walker = (child: Record<string, unknown> = {}) =>
  buildChild(TODAY, 8, { sex: 'female', ...child })
    .series('foot_length', 'left', [
      [12, 188],
      [6, 193],
      [0, 197],
    ])
    .device('solid-afo', 'left', 6);
const infant = () =>
  buildChild(TODAY, 0.5, { sex: 'female' })
    .measured('head_circumference', 'none', 2, 406)
    .measured('head_circumference', 'none', 0, 450)
    .device('cranial-orthosis', 'none', 2);

/** The sheet's text, entities undone. */
function sheet(
  built: ReturnType<typeof walker>,
  language = 'en',
  decision: object | null = null,
  own: unknown[] = [],
  chart = NOT_DRAWN,
): string {
  const assessment = built.assess();
  const { record } = built;
  const view = {
    record,
    assessment,
    inUse: record.devices.map((device, i) => ({
      device,
      forecast: assessment.forecasts[i],
      decision: Array.isArray(decision) ? decision[i] : decision,
    })),
    rules: loadRules(own),
  };
  return renderPage(
    <FamilyPage
      view={view as never}
      words={familyWords(language)}
      checked={true}
      chart={chart}
      contact=""
      linkUntil={null}
      languageHref={() => ''}
    />,
    context,
  )
    .replaceAll('&#39;', "'")
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&');
}

// One day to ring by on one sheet: common practice, no source.
it.each(familyLanguages.map((w) => w.language))(
  'in %s what is broken is told of today in every sentence',
  (language) => {
    const broken = { action: 'repair', dueBy: TODAY, reason: { code: 'broken', numbers: { on: TODAY } } };
    const words = familyWords(language);
    expect(sheet(walker(), language, broken)).toContain(words.visitToday);
    expect(sheet(walker(), language, broken)).not.toContain(words.visitNow);
  },
);

it('asks to be rung this week where the forecast says outgrown or nothing, whatever day the next visit has', () => {
  const later = { action: 'none', dueBy: '2027-05-01', reason: { code: 'fits-for-now', numbers: {} } };
  const { visitNow } = familyWords('en');
  const outcomeOf = (built: ReturnType<typeof walker>) => built.assess().forecasts[0].outcome;
  const small = buildChild(TODAY, 8, { sex: 'female' })
    .series('foot_length', 'left', [
      [18, 176],
      [12, 181],
      [6, 188],
      [0, 197],
    ])
    .device('solid-afo', 'left', 12);
  expect(outcomeOf(small)).toBe('already-outgrown');
  const neverMeasured = buildChild(TODAY, 8, { sex: 'female' }).device('solid-afo', 'left', 6);
  expect(outcomeOf(neverMeasured)).toBe('too-few-measurements');
  expect(sheet(small, 'en', later)).toContain(visitNow);
  expect(sheet(neverMeasured, 'en', later)).toContain(visitNow);
  // A device that fits waits for its day.
  expect(sheet(walker(), 'en', later)).not.toContain(visitNow);
});

it.each(familyLanguages.map((w) => w.language))(
  'in %s what to stop and ring for stands above the chart, and that no date is waited for',
  (language) => {
    const words = familyWords(language);
    for (const insensateSkin of [true, false]) {
      const chart = { svg: '<svg id="drawn"></svg>', narrow: false };
      const shown = sheet(walker({ insensateSkin }), language, null, [], chart);
      const places = [words.doNotWait(insensateSkin), words.callUs, words.marks, words.guess, 'id="drawn"'];
      const at = places.map((text) => shown.indexOf(text));
      expect(at).not.toContain(-1);
      expect(at).toEqual(at.toSorted((a, b) => a - b));
    }
  },
);

it('says first what cannot wait, whichever device was entered first', () => {
  const both = walker().device('solid-afo', 'right', 6);
  const decided = (action: string, code: string) => ({ action, dueBy: TODAY, reason: { code, numbers: {} } });
  const shown = sheet(both, 'en', [decided('cast', 'cast-by-passed'), decided('see-now', 'red-flag')]);
  const [stop, next] = [shown.indexOf('Stop wearing the right'), shown.indexOf('left lower leg brace')];
  expect(stop).toBeGreaterThan(0);
  expect(next).toBeGreaterThan(stop);
});

it.each(familyLanguages)(
  'a letter in $language says that nobody has read its words until somebody has',
  (words) => {
    const entry = {
      action: 'see-now',
      reason: { code: 'red-flag', numbers: {} },
      alerts: [],
      dueBy: TODAY,
      devices: [{ family: 'solid-afo', side: 'left', beyondUseSince: null }],
    };
    const letter = (signed: object | null) =>
      renderPage(
        <LettersPage
          rows={[{ id: 'e1', childId: 'c1', childName: 'Ana', language: words.language, entry }] as never}
          contact=""
          rules={loadRules()}
          languages={[{ language: words.language, name: words.name, signed: signed as never }]}
        />,
        context,
      );
    const unread = letter(null);
    expect(unread).toContain(words.unchecked);
    expect(letter({})).not.toContain(words.unchecked);
    expect(unread.split(words.visitToday).length, 'asks to come today, once').toBe(2);
  },
);

it('calls a device by the name that the clinic gives it', () => {
  const names = { en: { clinical: 'Night AFO', plain: 'night brace' } };
  expect(sheet(walker(), 'en', null, [{ id: 'solid-afo', names }])).toContain('night brace');
});

describe.each(familyLanguages.map(({ language }) => language))('the sheet in %s', (language) => {
  const words = familyWords(language);
  it('says what to look for, not to wait for a date, and whom to ring', () => {
    const shown = sheet(walker(), language);
    for (const sign of words.signs('ankle-foot', false).signs) expect(shown).toContain(sign);
    for (const text of [words.doNotWait(false), words.numberOnCard, words.guess, words.marks])
      expect(shown).toContain(text);
    expect(shown).not.toContain(words.skinInsensate);
  });

  it('has skin that cannot warn looked at, and waits for no pain', () => {
    const shown = sheet(walker({ insensateSkin: true }), language);
    expect(words.doNotWait(true)).not.toBe(words.doNotWait(false));
    for (const text of [words.skinInsensate, words.doNotWait(true), ...words.signs('ankle-foot', true).signs])
      expect(shown).toContain(text);
    expect(shown).not.toContain(words.doNotWait(false));
  });

  it('says of a head that races: today, no helmet, and when to go to the hospital', () => {
    const shown = sheet(infant(), language);
    const helmet = wornDevice({ family: 'cranial-orthosis', side: 'none' }, loadRules());
    expect(words.emergency('head')).not.toBeNull();
    expect(words.emergency('foot')).toBeNull();
    expect(shown).toContain(words.emergency('head'));
    expect(shown).toContain(words.visitToday);
    expect(shown).toContain(words.wanted('see-now', helmet, 'head'));
  });

  it('tells harder breathing and a broken hip orthosis in words of their own', () => {
    const on = (region: string) =>
      ({ names: { en: { plain: 'brace' }, es: { plain: 'la férula' } }, region, side: 'none' }) as never;
    const rest = (text: string | null) => text?.replace(/^[^:]*: /, '');
    const [breath, skin] = (['breathing', 'skin'] as const).map((why) =>
      rest(words.wanted('see-now', on('trunk'), why)),
    );
    expect(breath).not.toBe(skin);
    expect(rest(words.wanted('repair', on('hip'), 'other'))).not.toBe(
      rest(words.wanted('repair', on('trunk'), 'other')),
    );
  });
});

it('a red flag brings the family in today, whatever date the brace has', () => {
  const red = walker();
  red.event('verdict', 0, { verdict: 'good', note: 'blister on heel' });
  expect(sheet(red)).toContain(familyWords('en').visitToday);
});

it('every page of the clinic says that it is no diagnosis and what nobody has signed', () => {
  const page = renderPage(<Layout title="x">x</Layout>, context);
  expect(page).toMatch(/not a diagnosis.*check skin and fit at every\s+visit/s);
  expect(page).toMatch(/Not yet signed by a practitioner of this clinic: fit limits/);
});

it('asks to ring this week for what is due today or was, and names a day only where it is to come', () => {
  const review = (dueBy: string) => ({
    ...{ action: 'review', dueBy },
    reason: { code: 'review-due', numbers: { by: dueBy } },
  });
  const { visitNow } = familyWords('en');
  for (const dueBy of [TODAY, '2026-11-01'])
    expect(sheet(walker(), 'en', review(dueBy)), dueBy).toContain(visitNow);
  const later = sheet(walker(), 'en', review('2027-01-15'));
  expect(later).not.toContain(visitNow);
  expect(later).toContain('see your child before 15 January 2027');
});

it('tells a family of what is worn; of what is in the workshop only where nothing is', () => {
  const view = (...fitted: (string | null)[]) =>
    ({ inUse: fitted.map((fittedDate, i) => ({ device: { id: `d${i}`, fittedDate } })) }) as never;
  const told = (...fitted: (string | null)[]) => devicesTold(view(...fitted)).map((v) => v.device.id);
  expect(told('2026-05-01', null)).toEqual(['d0']);
  expect(told(null)).toEqual(['d0']);
});
