import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { recallSettings } from '../../../src/recall/decide/recall-settings.js';
import { atEqualVisits, bestInWords, bestPolicy } from '../../../src/study/simulate/compare-policies.js';
import { bootstrap, type PolicySummary, policyName } from '../../../src/study/simulate/summarise-policies.js';

// Our own simulation, kept; no outside source.
const kept = JSON.parse(readFileSync('models/policies/report.json', 'utf8'));
const policies: readonly PolicySummary[] = kept.policies;
const { acceptedChance } = recallSettings.parse({});
const shipped = policyName({ kind: 'forecast', levelled: true, acceptedChance });

it('the kept table says which is best; the shipped accepted chance leaves fewer weighted days, child by child', () => {
  expect(shipped).toContain('(shipped)');
  const best = bestPolicy(policies);
  expect(kept.best).toBe(best.policy);
  expect(kept.bestInWords).toBe(bestInWords(policies));
  const own = policies.find((p) => p.policy === shipped)!;
  const more = best.ofChildren.weightedDays.map((days, k) => days - own.ofChildren.weightedDays[k]);
  // 0.0 to 5.6 days fewer: the resamples touch nought.
  if (best !== own) expect(bootstrap(more, 1).low).toBeGreaterThan(-0.5);
  if (best !== own) expect(bootstrap(more, 1).mean).toBeGreaterThan(2);
  for (const fixed of policies.filter((p) => !p.policy.startsWith('forecast'))) {
    expect(own.cost.mean).toBeLessThan(fixed.cost.mean);
    expect(own.weightedDays.mean).toBeLessThan(fixed.weightedDays.mean);
  }
});

it('at about equal visits the forecasts leave fewer weighted days beyond use than the best fixed review', () => {
  const compared = atEqualVisits(policies);
  expect(kept.atEqualVisits).toEqual(compared);
  expect(compared.every((c) => c.ratio < 1)).toBe(true);
  expect(compared.find((c) => c.policy === shipped)!.fewer.low).toBeGreaterThan(0);
  // The fixed review nearest in visits throws away twice the wear; of the one of about equal cost a quarter was aimed at.
  expect(compared.find((c) => c.policy === shipped)!.ratio).toBeLessThanOrEqual(1 / 2);
  const [cheapest] = policies
    .filter((p) => !p.policy.startsWith('forecast'))
    .sort((a, b) => a.cost.mean - b.cost.mean);
  const own = policies.find((p) => p.policy === shipped)!;
  expect(own.weightedDays.mean / cheapest.weightedDays.mean).toBeLessThanOrEqual(1 / 4);
  for (const { visits, fixedVisits } of compared) expect(Math.abs(visits - fixedVisits)).toBeLessThan(0.5);
});
