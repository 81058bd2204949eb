/** What a model's card says is what its fit measured: card, parameters and facts are of one run. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { growthModelNames } from '../../src/growth/population/model.js';
import { growthParameters } from '../../src/growth/population/parameters.js';
import { growthSettings } from '../../src/study/fit/growth-settings.js';
import { type CardFacts, modelCard } from '../../src/study/fit/model-card.js';

const read = (name: string, file: string) =>
  readFileSync(fileURLToPath(new URL(`../../models/${name}/${file}`, import.meta.url)), 'utf8');
const of = (name: string) => ({
  parameters: growthParameters.parse(JSON.parse(read(name, 'parameters.json'))),
  facts: JSON.parse(read(name, 'card-facts.json')) as CardFacts,
});

describe.each(growthModelNames())('model card of %s', (name) => {
  const { parameters, facts } = of(name);
  it('is written from the parameters and the facts beside it', () => {
    expect(read(name, 'model-card.md')).toBe(modelCard(parameters, facts));
  });
  it('a changed figure changes the card', () => {
    const [first, ...others] = facts.errors;
    const changed = { ...facts, errors: [{ ...first, maeMm: first.maeMm + 1 }, ...others] };
    expect(modelCard(parameters, changed)).not.toBe(read(name, 'model-card.md'));
  });
  it('has the settings that the fit would take today', () => {
    expect(parameters.zScoreShare).toEqual(growthSettings.zScoreShare);
    expect(parameters.peakVelocityAgeYears).toEqual(growthSettings.peakVelocityAgeYears);
    expect(parameters.crossSectional).toEqual(growthSettings.crossSectional);
  });
  it('reports every device with the floor beside it', () => {
    expect(facts.dates.map((d) => d.allowanceMm)).toEqual(facts.dateFloors.map((d) => d.allowanceMm));
    for (const d of facts.dates) expect(d.devices).toBe(d.n + d.censored);
  });
});

// What the shipped default must not fall behind: children it had not seen, a year ahead, three visits, clinic error.
describe('the default model on children left out', () => {
  const { errors, dates } = of('default').facts;
  const legs = errors.filter((e) => e.measure === 'leg_length' && e.horizonYears === 1);
  it('forecasts legs at least a fifth nearer than staying on the cohort’s own centile does', () => {
    const n = legs.reduce((sum, e) => sum + e.n, 0);
    const ratio = legs.reduce((sum, e) => sum + e.n * e.maeMm, 0);
    const centile = legs.reduce((sum, e) => sum + (e.n * e.maeMm) / (e.toCentile as number), 0);
    expect(n).toBeGreaterThan(400);
    expect(ratio / centile).toBeLessThan(0.8);
  });
  it('forecasts infants nearer than staying on the published centile does, with bands that hold 80 %', () => {
    const { infants } = of('default').facts;
    expect(infants!.errors.map((e) => e.monthsAhead)).toEqual([1, 2, 4]);
    for (const e of infants!.errors) {
      expect(e.toCentile, `${e.monthsAhead} months`).toBeLessThan(0.975);
      expect(Math.abs(e.coverage80 - 0.8), `${e.monthsAhead} months`).toBeLessThan(0.04);
    }
  });
  it('has no cell far from its 80 %', () => {
    for (const e of errors)
      expect(Math.abs(e.coverage80 - 0.8), `${e.measure} ${e.sex} ${e.ages} +${e.horizonYears}`).toBeLessThan(
        Math.max(0.1, 3 * e.coverage80Se),
      );
  });
  it('the outgrown dates have even odds', () => {
    for (const d of dates) {
      expect(d.outgrownByDate?.p50, `${d.allowanceMm} mm`).toBeGreaterThan(0.4);
      expect(d.outgrownByDate?.p50, `${d.allowanceMm} mm`).toBeLessThan(0.6);
    }
  });
});
