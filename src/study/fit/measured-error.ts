import type { GrowthModel } from '../../growth/population/growth-model.js';
import { fitChild } from '../../growth/prediction/fit-child.js';
import type { MeasureId } from '../../records/measure.js';
import { groupBy } from '../../statistics/group-by.js';
import { randomStream } from '../../statistics/random-stream.js';
import { anchorInput, dayAtAge } from './anchor-input.js';
import type { AnchorChild } from './anchor-records.js';

/** Mean absolute error and coverage of forecasts for children the model has not seen. */
export interface MeasuredError {
  readonly measure: MeasureId;
  readonly sex: 'male' | 'female';
  readonly ages: string;
  readonly horizonYears: number;
  readonly n: number;
  readonly maeMm: number;
  readonly biasMm: number;
  readonly coverage80: number;
  /** Standard errors that count children, not forecasts. */
  readonly maeSeMm: number;
  readonly coverage80Se: number;
}

/** Error added to the records, as a clinic measures, mm. */
const CLINIC_ERROR = { stature: 4, leg_length: 5 } as const;
const BANDS = [
  [5, 8],
  [8, 11],
  [11, 14],
  [14, 17],
] as const;

/** Forecasts from the last three yearly visits to half a year, one and two years ahead, at whole years of age. */
export function measuredError(
  children: readonly AnchorChild[],
  modelFor: (child: AnchorChild) => GrowthModel,
  seed: number,
): MeasuredError[] {
  const cells = new Map<
    string,
    { key: Pick<MeasuredError, 'measure' | 'sex' | 'ages' | 'horizonYears'>; forecasts: Scored[] }
  >();
  const chance = randomStream(seed);
  for (const [childAt, child] of children.entries()) {
    const noisy = child.rows.map((r) => {
      const sd = r.measure === 'stature' || r.measure === 'leg_length' ? CLINIC_ERROR[r.measure] : 0;
      return { ...r, value: r.value + sd * chance.normal(), errorMm: sd || null };
    });
    for (let age = 5; age < 17; age++) {
      const known = noisy.filter((r) => [0, 1, 2].some((h) => Math.abs(r.ageYears - age + h) < 0.02));
      if (!known.some((r) => Math.abs(r.ageYears - age) < 0.02)) continue;
      const outcome = fitChild(anchorInput(child.sex, known), modelFor(child));
      if (outcome.kind !== 'posterior') continue;
      for (const measure of ['stature', 'leg_length', 'sitting_height'] as const)
        for (const horizonYears of [0.5, 1, 2]) {
          const truth = truthAt(child, measure, age + horizonYears);
          const seen = measure === 'sitting_height' ? 'leg_length' : measure;
          if (truth === null || !known.some((r) => r.measure === seen)) continue;
          const p = outcome.posterior.predict({ measure, side: 'none' }, [dayAtAge(age + horizonYears)]);
          const [low, middle, high] = [0.1, 0.5, 0.9].map((q) => p.quantile(q)[0]);
          const band = BANDS.find(([a, b]) => age >= a && age < b) as readonly [number, number];
          const key = { measure, sex: child.sex, ages: `${band[0]}-${band[1]}`, horizonYears };
          const id = Object.values(key).join();
          const cell = cells.get(id) ?? { key, forecasts: [] };
          cells.set(id, cell);
          const inside = truth >= low && truth <= high;
          cell.forecasts.push({ child: childAt, error: middle - truth, inside: Number(inside) });
        }
    }
  }
  return [...cells.values()].map(({ key, forecasts }) => {
    const n = forecasts.length;
    const mae = byChild(forecasts, (f) => Math.abs(f.error));
    const coverage = byChild(forecasts, (f) => f.inside);
    return {
      ...key,
      n,
      maeMm: mae.mean,
      biasMm: forecasts.reduce((s, f) => s + f.error, 0) / n,
      coverage80: coverage.mean,
      maeSeMm: mae.se,
      coverage80Se: coverage.se,
    };
  });
}

/** What was recorded later; sitting height, which no record holds, is stature less leg length. */
function truthAt(child: AnchorChild, measure: MeasureId, ageYears: number): number | null {
  const at = (id: MeasureId) =>
    child.rows.find((r) => r.measure === id && Math.abs(r.ageYears - ageYears) < 0.02)?.value ?? null;
  if (measure !== 'sitting_height') return at(measure);
  const [whole, legs] = [at('stature'), at('leg_length')];
  return whole === null || legs === null ? null : whole - legs;
}

interface Scored {
  readonly child: number;
  readonly error: number;
  readonly inside: number;
}

/** Mean over forecasts and its standard error with children as the units (ratio estimator: Cochran 1977, 6.4 - from memory). */
function byChild(forecasts: readonly Scored[], value: (f: Scored) => number): { mean: number; se: number } {
  const n = forecasts.length;
  const mean = forecasts.reduce((s, f) => s + value(f), 0) / n;
  const off = [...groupBy(forecasts, (f) => f.child).values()].map((own) =>
    own.reduce((s, f) => s + value(f) - mean, 0),
  );
  const k = off.length;
  return { mean, se: k < 2 ? 0 : Math.sqrt((k / (k - 1)) * off.reduce((s, o) => s + o * o, 0)) / n };
}
