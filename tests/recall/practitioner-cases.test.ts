import { describe, expect, it } from 'vitest';
import type { DeviceDecision } from '../../src/recall/contract.js';
import { buildRecallList } from '../../src/recall/decide/build-recall-list.js';
import { figureChance } from '../../src/recall/decide/check-figure.js';
import { addDaysIso } from '../../src/records/dates.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { estimateTurnaround } from '../../src/turnaround/estimate-turnaround.js';
import { clinicianReason } from '../../src/words/clinician-reason.js';
import { buildChild } from '../forecast/build-record.js';
import { type PractitionerCase, TODAY } from './case-kit.js';
import { adjustCases } from './cases/adjust-and-parts.js';
import { castCases } from './cases/cast.js';
import { checkCases } from './cases/check.js';
import { measureCases } from './cases/measure.js';
import { noneCases } from './cases/none.js';
import { reviewCases } from './cases/review.js';
import { urgentCases } from './cases/see-now-and-repair.js';

const practitionerCases = [
  ...urgentCases,
  ...measureCases,
  ...adjustCases,
  ...castCases,
  ...checkCases,
  ...reviewCases,
  ...noneCases,
];

function listed(built: ReturnType<PractitionerCase['child']>, more: Partial<PractitionerCase> = {}) {
  const list = buildRecallList([built.assess()], [built.record], (f) => estimateTurnaround([], f, TODAY), {
    today: TODAY,
    rules: loadRules(),
    settings: { eligibleAfterMonths: more.eligibleAfterMonths ?? {} },
  });
  const entry = list.entries[0] ?? null;
  const shown = entry ?? list.notDue[0] ?? null;
  const other = list.inProgress.length > 0 && !shown ? 'none' : null;
  return { entry, action: entry ? entry.action : shown ? 'none' : other, shown };
}

/** Of each case once: several tests ask for it. */
const answers = new Map<PractitionerCase, ReturnType<typeof answerOf>>();
function answerOf(c: PractitionerCase) {
  const built = c.child();
  return { built, ...listed(built, c) };
}
function answered(c: PractitionerCase) {
  const answer = answers.get(c) ?? answerOf(c);
  answers.set(c, answer);
  return answer;
}

/** A figure is shown only where the look may find either: chance of so little room from 5 to 95 %. */
function benchDecides({ checkFigure: figure, forecast, castBy }: DeviceDecision): boolean {
  if (!figure || !forecast) return true;
  const chance = figureChance(forecast, figure, TODAY, castBy && castBy > TODAY ? castBy : TODAY);
  return chance === null || (chance >= 0.05 && chance <= 0.95);
}

// Common practice, no source: what someone who does the job would do with each child.
describe('a practitioner’s action', () => {
  it('is written down for at least forty children', () => {
    expect(practitionerCases.length).toBeGreaterThanOrEqual(40);
    expect(new Set(practitionerCases.map((c) => c.name)).size).toBe(practitionerCases.length);
  });

  it('is the answer in at least six of seven of them; the others are left to see', () => {
    const agree = practitionerCases.filter((c) => c.differs === undefined).length;
    expect(agree / practitionerCases.length).toBeGreaterThanOrEqual(6 / 7);
  });

  it.each(practitionerCases.map((c) => [c.name, c] as const))('%s', (_, c) => {
    const { built, entry, action, shown } = answered(c);
    const facts = shown?.devices.map((d) => [d.action, d.reason, d.castBy, d.chanceToday, d.reviewBy]);
    expect(action, `${c.why}; got ${JSON.stringify(facts)}`).toBe(c.differs?.action ?? c.action);
    for (const d of shown?.devices ?? []) expect(benchDecides(d), JSON.stringify(d.checkFigure)).toBe(true);
    const by = shown?.castBy ?? '';
    if (c.castBy) expect(by >= c.castBy[0] && by <= c.castBy[1], by).toBe(true);
    if (c.devices) expect(entry?.deviceIds).toEqual(c.devices.map((i) => built.record.devices[i].id));
  });
});

it('a first look after a fitting is named as one, and no other review is', () => {
  const first = practitionerCases.find((c) => c.why.startsWith('new: the first look'))!;
  const { shown } = answered(first);
  expect(clinicianReason({ reason: shown!.reason, adjust: null })).toMatch(
    /^The first look after the fitting/,
  );
  const usual = practitionerCases
    .map((c) => answered(c).shown?.reason)
    .find((r) => r?.code === 'review-due' && !r.numbers.first);
  expect(clinicianReason({ reason: usual!, adjust: null })).toBe('The usual review.');
});

it('a first look is asked for though nobody looked after the fittings before', () => {
  const built = buildChild(TODAY, 8, { sex: 'male' });
  for (const ago of [25, 13, 1.4])
    built
      .measured('foot_length', 'left', ago, Math.round(200 - 0.8 * ago))
      .device('solid-afo', 'left', ago, ago > 2 ? { status: 'retired' } : {});
  expect(listed(built).shown?.reason.numbers.first).toBe(1);
});

it('let out by an amount nobody noted it is looked at within four weeks, until somebody judges the fit', () => {
  const easedAgo = (months: number) =>
    buildChild(TODAY, 8, { sex: 'male' })
      .series('foot_length', 'left', [
        [6, 195],
        [1, 199],
      ])
      .device('solid-afo', 'left', 6)
      .event('adjusted', months, { adjustment: 'strap', measure: 'calf_girth' });
  const { action, shown } = listed(easedAgo(0.5));
  expect([action, shown?.reason.code]).toEqual(['check', 'amount-unknown']);
  expect(shown?.dueBy).toBe(addDaysIso(easedAgo(0.5).day(0.5), 28));
  const judged = listed(easedAgo(0.5).event('verdict', 0.2, { verdict: 'good' }));
  expect(judged.shown?.reason.code).not.toBe('amount-unknown');
});
