import { describe, expect, it } from 'vitest';
import { type Action, type DeviceDecision, type Reason, reasonCodes } from '../../src/recall/contract.js';
import { visitOf } from '../../src/recall/decide/visit-of.js';
import type { Side } from '../../src/records/measure.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { clinicianReason } from '../../src/words/clinician-reason.js';
import { reasonSentence, withSentences } from '../../src/words/reason-sentence.js';

const numbers = {
  measure: 'foot_length',
  side: 'left',
  flag: 'finding-skin-open',
  what: 'strap',
  part: 'foot-section',
  mm: 6,
  ...Object.fromEntries(
    ['on', 'by', 'date', 'from', 'end', 'next', 'since', 'castBy', 'expected'].map((k) => [k, '2026-12-01']),
  ),
};
const said = (code: Reason['code'], numb: boolean) =>
  reasonSentence(
    { action: 'check', reason: { code, numbers } },
    [{ family: 'solid-afo', side: 'left' }],
    numb,
    loadRules(),
  );

describe('the sentence to a parent', () => {
  it('calls a device of the clinic’s own family by the name its rule gives', () => {
    const names = { en: { clinical: 'Night AFO', plain: 'night brace' } };
    const own = loadRules([{ id: 'night-afo', basedOn: 'solid-afo', names }]);
    const wanted = { action: 'check', reason: { code: 'cast-due', numbers } } as const;
    expect(reasonSentence(wanted, [{ family: 'night-afo', side: 'left' }], false, own)).toContain(
      'the left night brace',
    );
  });

  it('never waits for pain where the skin cannot warn, and says to ring where it can', () => {
    for (const code of reasonCodes) {
      const asks = /\b(hurts?|pain)\b/;
      expect(said(code, true), code).not.toMatch(asks);
    }
    expect(said('red-flag', false)).toMatch(/pain/);
    expect(said('red-flag', true)).toMatch(/swelling, warmth/);
    expect(said('cast-due', false)).toMatch(/ring us sooner if anything rubs, marks or hurts/);
    expect(said('cast-due', true)).toMatch(/look at the skin/);
  });

  it('names of a visit only the devices it is true of, and the first of their days', () => {
    const decision = (side: Side, code: Reason['code'], castBy: string) =>
      ({
        family: 'solid-afo',
        side,
        action: 'cast',
        reason: { code, numbers: { castBy, since: castBy } },
        harmPerWeek: side === 'left' ? 2 : 1,
        alerts: [],
      }) as unknown as DeviceDecision;
    const child = { childId: 'CHILD-Q1', siblingGroup: null, lastSeen: null };
    const saidOf = (left: DeviceDecision, right: DeviceDecision) => {
      const visit = visitOf([left, right], [], child, '2026-11-27');
      return withSentences({ entries: [visit], notDue: [] } as never, loadRules()).entries[0].reason.text;
    };
    const late = decision('left', 'cast-late', '2026-10-20');
    expect(saidOf(late, decision('right', 'cast-late', '2026-10-17'))).toMatch(
      /after both lower leg braces should have been begun by 17 October 2026/,
    );
    expect(
      saidOf(decision('left', 'beyond-use', '2026-10-20'), decision('right', 'cast-late', '2026-10-01')),
    ).toMatch(/^The left lower leg brace has probably been too small since about 20 October 2026/);
  });

  // One day for one visit, and a mark under the other brace said with it: common practice, no source.
  it('names no later day than the visit is wanted by, and leaves no mark of another device unsaid', () => {
    const today = '2026-11-27';
    const of = (side: Side, action: Action, code: Reason['code'], dueBy: string) =>
      ({
        ...{ family: 'solid-afo', side, action, dueBy, castBy: '2027-01-02', harmPerWeek: 1, alerts: [] },
        reason: { code, numbers: { castBy: '2027-01-02', on: '2026-09-22', by: dueBy } },
      }) as unknown as DeviceDecision;
    const saidOf = (...devices: DeviceDecision[]) => {
      const visit = visitOf(devices, [], { childId: 'c', siblingGroup: null, lastSeen: null }, today);
      const list = { today, entries: [visit], notDue: [] };
      return withSentences(list as never, loadRules()).entries[0].reason.text;
    };
    const cast = of('left', 'cast', 'cast-due', '2027-01-02');
    expect(saidOf(cast)).toContain('we would like to see you by 2 January 2027');
    const review = of('right', 'review', 'review-due', '2026-12-11');
    expect(saidOf(cast, review)).toContain('we would like to see you by 11 December 2026');
    expect(saidOf(cast, of('right', 'review', 'review-due', today))).toContain('see you as soon as we can');
    const check = of('left', 'check', 'cast-due', '2027-01-02');
    expect(saidOf(check, review)).toContain('check the fit by 11 December 2026 and cast');
    expect(saidOf(cast, of('right', 'check', 'noted', today))).toMatch(
      /^Your child will soon grow out of the left .*as soon as we can.* Something was noted about the right lower leg brace on 22 September 2026/,
    );
  });
});

it('a clinician reads the finding before any date, and of what is broken or lost since when', () => {
  const read = (code: Reason['code']) => clinicianReason({ reason: { code, numbers }, adjust: null });
  expect(read('red-flag')).toMatch(/outranks every date.*first/);
  for (const code of ['broken', 'lost', 'judged-outgrown', 'judged-tight'] as const)
    expect(read(code), code).toContain('1 December 2026');
  expect(read('broken')).toMatch(/broken/);
  expect(read('lost')).toMatch(/lost/);
});
