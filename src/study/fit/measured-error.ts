import type { GrowthModel } from '../../growth/population/growth-model.js';
import { groupBy } from '../../statistics/group-by.js';
import { rounded } from '../../statistics/rounded.js';
import type { PointRule } from '../backtest/baselines.js';
import { recordErrorSd } from '../backtest/clinic-noise.js';
import { condition, dayAtAge, recordedBand } from '../backtest/growth-forecaster.js';
import type { BacktestMeasure, GrowthRecord, Known } from '../backtest/growth-record.js';
import { ratioByChild } from '../backtest/ratio-by-child.js';
import { horizonsYears, origins } from '../backtest/run-forecasts.js';
import { ageBands } from '../backtest/summarise.js';
import { trueCurve } from '../backtest/true-curve.js';

/** How children were forecast that the model had not seen, in one cell. */
export type MeasuredError = ReturnType<typeof measuredError>[number];

/** What a child left out is forecast with: a model and a cohort's centile that never saw it. */
export interface LeftOut {
  readonly model: GrowthModel;
  readonly centile: PointRule;
}

const BANDS = ageBands.filter((b) => ['5-8', '8-11', '11-14', '14-18'].includes(b.name));
const MEASURES = ['stature', 'leg_length', 'sitting_height'] as const;
/** How often each child is measured anew with a clinic's error: one draw's luck would be in every cell. */
export const NOISE_DRAWS = 2;
const FEWEST = 60;

/** Forecasts from the last three yearly visits, measured as a clinic would, to what was recorded half to two years on. */
export function measuredError(
  records: readonly GrowthRecord[],
  leftOut: (record: GrowthRecord) => LeftOut,
  seed: number,
) {
  const scored = records.flatMap((record) =>
    Array.from({ length: NOISE_DRAWS }, (_, draw) =>
      scoredChild(record, leftOut(record), seed + draw),
    ).flat(),
  );
  const cells = groupBy(scored, (s) => [s.measure, s.sex, s.ages, s.horizonYears].join());
  return [...cells.values()]
    .filter((cell) => cell.length >= FEWEST)
    .map((cell) => {
      const { measure, sex, ages, horizonYears } = cell[0];
      const mean = (value: (s: Scored) => number) => ratioByChild(cell, value);
      const own = (s: Scored) => Math.abs(s.errorMm);
      const mae = mean(own);
      const coverage = mean((s) => Number(s.inside));
      const held = cell.every((s) => s.centileErrorMm !== null);
      const staying = (s: Scored) => Math.abs(s.centileErrorMm as number);
      const centile = held ? ratioByChild(cell, own, staying) : null;
      return {
        ...{ measure, sex, ages, horizonYears, n: cell.length },
        maeMm: rounded(mae.ratio, 2),
        biasMm: rounded(mean((s) => s.errorMm).ratio, 2),
        coverage80: rounded(coverage.ratio),
        // Standard errors count children, not forecasts.
        maeSeMm: rounded(mae.se, 2),
        coverage80Se: rounded(coverage.se),
        // Error against staying on the cohort's own centile; null where that has no curve.
        toCentile: centile && rounded(centile.ratio),
        toCentileSe: centile && rounded(centile.se),
      };
    });
}

type Scored = ReturnType<typeof scoredChild>[number];

function scoredChild(record: GrowthRecord, { model, centile }: LeftOut, seed: number) {
  const truth = truths(record);
  return origins(record, 'clinic', seed).flatMap(({ wholeAge, known }) => {
    const band = BANDS.find((b) => wholeAge >= b.from && wholeAge < b.to);
    if (!band) return [];
    const { ageYears, sizes } = known.visits[known.visits.length - 1];
    const posterior = condition(known, model, 'clinic');
    return MEASURES.flatMap((measure) => {
      if (sizes[measure === 'sitting_height' ? 'leg_length' : measure] === undefined) return [];
      const ahead = horizonsYears.flatMap((horizonYears) => {
        const at = truth(measure, ageYears + horizonYears);
        return at === null ? [] : [{ horizonYears, ...at }];
      });
      const days = ahead.map((a) => dayAtAge(ageYears + a.horizonYears));
      const prediction = posterior.predict({ measure, side: 'none' }, days);
      const quantile = recordedBand(
        prediction,
        ahead.map((a) => a.errorMm),
      );
      const [low, middle, high] = [0.1, 0.5, 0.9].map(quantile);
      return ahead.map(({ horizonYears, sizeMm }, j) => ({
        childId: record.id,
        ...{ measure, sex: record.sex, ages: band.name, horizonYears },
        errorMm: middle[j] - sizeMm,
        inside: sizeMm >= low[j] && sizeMm <= high[j],
        centileErrorMm: centileError(known, measure, horizonYears, sizeMm, centile),
      }));
    });
  });
}

const centileError = (known: Known, measure: string, years: number, sizeMm: number, centile: PointRule) =>
  measure === 'sitting_height' ? null : centile(known, measure as BacktestMeasure, years) - sizeMm;

/** What a row of the record says later, with its error; sitting height, which has no row, is stature less leg length. */
function truths(record: GrowthRecord) {
  const curves = { stature: trueCurve(record, 'stature'), leg_length: trueCurve(record, 'leg_length') };
  const at = (measure: 'stature' | 'leg_length', ageYears: number) => {
    const row = curves[measure]?.truth(ageYears);
    return row?.recorded ? { sizeMm: row.size, errorMm: recordErrorSd(measure, ageYears) } : null;
  };
  return (measure: (typeof MEASURES)[number], ageYears: number) => {
    if (measure !== 'sitting_height') return at(measure, ageYears);
    const [whole, legs] = [at('stature', ageYears), at('leg_length', ageYears)];
    if (whole === null || legs === null) return null;
    return { sizeMm: whole.sizeMm - legs.sizeMm, errorMm: Math.hypot(whole.errorMm, legs.errorMm) };
  };
}
