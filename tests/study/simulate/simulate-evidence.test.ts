/** What the tool promises of one more reading, and what judged visits teach it, on children whose growth is known. */
import { expect, it } from 'vitest';
import { loadGrowthModel } from '../../../src/growth/population/model.js';
import { loadRules } from '../../../src/rules/load-rules.js';
import { simulateEvidence } from '../../../src/study/simulate/simulate-evidence.js';

const { reading, visits } = simulateEvidence(loadGrowthModel(), loadRules(), 60, 1);

it('a reading narrows the dates by as much as was promised, on the average', () => {
  expect(reading.devices).toBeGreaterThan(30);
  expect(reading.promisedDays).toBeLessThan(reading.beforeDays);
  expect(Math.abs(reading.afterDays - reading.promisedDays)).toBeLessThan(3 * reading.seDays);
});

it('visits that judged the fit bring the date no farther from the truth', () => {
  const [none, one, two] = visits;
  expect(none.devices).toBeGreaterThan(30);
  for (const v of [one, two]) expect(v.gainDays).toBeLessThan(v.seDays);
});
