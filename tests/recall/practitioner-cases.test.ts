import { describe, expect, it } from 'vitest';
import type { DeviceDecision } from '../../src/recall/contract.js';
import { buildRecallList } from '../../src/recall/decide/build-recall-list.js';
import { figureChance } from '../../src/recall/decide/check-figure.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { estimateTurnaround } from '../../src/turnaround/estimate-turnaround.js';
import { clinicianReason } from '../../src/words/clinician-reason.js';
import { type PractitionerCase, TODAY } from './case-kit.js';
import { eighthCases } from './eighth-cases.js';
import { fifthCases } from './fifth-cases.js';
import { fourthCases } from './fourth-cases.js';
import { ninthCases } from './ninth-cases.js';
import { practitionerCases as firstCases } from './practitioner-cases.js';
import { secondCases } from './second-cases.js';
import { seventhCases } from './seventh-cases.js';
import { sixthCases } from './sixth-cases.js';
import { thirdCases } from './third-cases.js';

const practitionerCases = [
  ...firstCases,
  ...secondCases,
  ...thirdCases,
  ...fourthCases,
  ...fifthCases,
  ...sixthCases,
  ...seventhCases,
  ...eighthCases,
  ...ninthCases,
];

function listed(c: PractitionerCase) {
  const built = c.child();
  const list = buildRecallList([built.assess()], [built.record], (f) => estimateTurnaround([], f, TODAY), {
    today: TODAY,
    rules: loadRules(),
    settings: { eligibleAfterMonths: c.eligibleAfterMonths ?? {} },
  });
  const entry = list.entries[0] ?? null;
  const shown = entry ?? list.notDue[0] ?? null;
  const other = list.inProgress.length > 0 && !shown ? 'none' : null;
  return { built, entry, action: entry ? entry.action : shown ? 'none' : other, shown };
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
    const { built, entry, action, shown } = listed(c);
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
  const { shown } = listed(first);
  expect(clinicianReason({ reason: shown!.reason, adjust: null })).toMatch(
    /^The first look after the fitting/,
  );
  const usual = practitionerCases
    .map((c) => listed(c).shown?.reason)
    .find((r) => r?.code === 'review-due' && !r.numbers.first);
  expect(clinicianReason({ reason: usual!, adjust: null })).toBe('The usual review.');
});
