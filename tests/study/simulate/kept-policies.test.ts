import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { recallSettings } from '../../../src/recall/decide/recall-settings.js';
import { atEqualVisits, bestInWords, bestPolicy } from '../../../src/study/simulate/compare-policies.js';
import { type PolicySummary, policyName } from '../../../src/study/simulate/summarise-policies.js';

// Our own simulation, kept; no outside source.
const kept = JSON.parse(readFileSync('models/policies/report.json', 'utf8'));
const policies: readonly PolicySummary[] = kept.policies;
const { acceptedChance } = recallSettings.parse({});
const shipped = policyName({ kind: 'forecast', levelled: true, acceptedChance });

it('the table names its best, by the stated cost', () => {
  expect(shipped).toContain('(shipped)');
  expect(policies.some((p) => p.policy === shipped)).toBe(true);
  expect(kept.best).toBe(bestPolicy(policies).policy);
  expect(kept.bestInWords).toBe(bestInWords(policies));
});

it('at about equal visits the forecasts leave fewer weighted days beyond use than the best fixed review', () => {
  const compared = atEqualVisits(policies);
  expect(kept.atEqualVisits).toEqual(compared);
  expect(compared.every((c) => c.ratio < 1)).toBe(true);
  expect(compared.find((c) => c.policy === shipped)!.fewer.low).toBeGreaterThan(0);
  expect(compared.find((c) => c.policy === shipped)!.ratio).toBeLessThanOrEqual(0.3);
  for (const { visits, fixedVisits } of compared) expect(Math.abs(visits - fixedVisits)).toBeLessThan(0.5);
});
