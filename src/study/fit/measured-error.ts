import type { GrowthModel } from '../../growth/population/growth-model.js';
import { fitChild } from '../../growth/prediction/fit-child.js';
import type { MeasureId } from '../../records/measure.js';
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
    { key: Omit<MeasuredError, 'n' | 'maeMm' | 'biasMm' | 'coverage80'>; errors: number[]; inside: number }
  >();
  const chance = randomStream(seed);
  for (const child of children) {
    const noisy = child.rows.map((r) => {
      const sd = r.measure === 'stature' || r.measure === 'leg_length' ? CLINIC_ERROR[r.measure] : 0;
      return { ...r, value: r.value + sd * chance.normal(), errorMm: sd || null };
    });
    for (let age = 5; age < 17; age++) {
      const known = noisy.filter((r) => [0, 1, 2].some((h) => Math.abs(r.ageYears - age + h) < 0.02));
      if (!known.some((r) => Math.abs(r.ageYears - age) < 0.02)) continue;
      const outcome = fitChild(anchorInput(child.sex, known), modelFor(child));
      if (outcome.kind !== 'posterior') continue;
      for (const measure of ['stature', 'leg_length'] as const)
        for (const horizonYears of [0.5, 1, 2]) {
          const later = child.rows.find(
            (r) => r.measure === measure && Math.abs(r.ageYears - age - horizonYears) < 0.02,
          );
          if (!later || !known.some((r) => r.measure === measure)) continue;
          const p = outcome.posterior.predict({ measure, side: 'none' }, [dayAtAge(age + horizonYears)]);
          const [low, middle, high] = [0.1, 0.5, 0.9].map((q) => p.quantile(q)[0]);
          const band = BANDS.find(([a, b]) => age >= a && age < b) as readonly [number, number];
          const key = { measure, sex: child.sex, ages: `${band[0]}-${band[1]}`, horizonYears };
          const id = Object.values(key).join();
          const cell = cells.get(id) ?? { key, errors: [], inside: 0 };
          cells.set(id, cell);
          cell.errors.push(middle - later.value);
          if (later.value >= low && later.value <= high) cell.inside++;
        }
    }
  }
  return [...cells.values()].map(({ key, errors, inside }) => ({
    ...key,
    n: errors.length,
    maeMm: errors.reduce((s, e) => s + Math.abs(e), 0) / errors.length,
    biasMm: errors.reduce((s, e) => s + e, 0) / errors.length,
    coverage80: inside / errors.length,
  }));
}
