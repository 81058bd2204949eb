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

it('the shipped accepted chance is the best of the kept table, and the table says so', () => {
  expect(shipped).toContain('(shipped)');
  expect(bestPolicy(policies).policy).toBe(shipped);
  expect(kept.best).toBe(shipped);
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
