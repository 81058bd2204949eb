import type { Spec } from '../../charts/fill-spec.js';
import { type GrowthChartInput, growthChart } from '../../charts/growth-chart.js';
import type { DeviceForecast } from '../../forecast/contract.js';
import { allowanceToLast } from '../../forecast/inverse/allowance-to-last.js';
import { type CastQuestion, canAnswer, sizesAtCast } from '../../forecast/inverse/growth-from-cast.js';
import { type AllowanceLife, lifeOfAllowances } from '../../forecast/inverse/life-of-allowances.js';
import type { ChildPosterior, Prediction } from '../../growth/contract.js';
import { addDaysIso, type IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import { type MeasureId, measures, type Series, seriesKey } from '../../records/measure.js';
import { type FitDimension, sideBarOf } from '../../rules/fit-rule.js';

export interface WhatIf {
  readonly measure: MeasureId;
  readonly series: readonly Series[];
  /** By series: expected size today, mm. */
  readonly nowMm: readonly number[];
  /** Allowance of the family's rule, mm. */
  readonly usualMm: number;
  /** Most a side bar adds, mm; 0 without one. */
  readonly sideBarMm: number;
  readonly lives: readonly AllowanceLife[];
  /** Room needed to last so many months at 8, 9 and 95 in 100 odds. */
  readonly needed: readonly { readonly months: number; readonly mm: readonly number[] }[];
}

export const odds = [0.8, 0.9, 0.95] as const;
const MONTHS = [6, 9, 12, 18, 24];
const DRAWS = 600;
const SEED = 1;

/** How long a device cast today would last for each amount of room in one of its dimensions; null where growth cannot tell. */
export function whatIf(
  child: Pick<CastQuestion, 'posterior' | 'model' | 'measurements'>,
  device: Device,
  dimension: FitDimension,
  today: IsoDate,
): WhatIf | null {
  const { measure } = dimension;
  const ofDevice =
    device.side === 'both' || device.side === 'none' ? (['left', 'right'] as const) : [device.side];
  const sides = measures[measure].sided ? ofDevice : (['none'] as const);
  const series = sides.map((side): Series => ({ measure, side }));
  const question: CastQuestion = { ...child, series, castDate: today, draws: DRAWS, seed: SEED };
  if (!canAnswer(question)) return null;
  const usualMm = dimension.allowanceMm.value;
  const sideBarMm = sideBarOf(dimension)?.upToMm.value ?? 0;
  const most = Math.max(20, Math.ceil(usualMm * 2), Math.ceil(usualMm + sideBarMm));
  const step = most > 40 ? 2 : 1;
  const allowances: number[] = [];
  for (let mm = 2; mm <= most; mm += step) allowances.push(mm);
  return {
    measure,
    series,
    nowMm: sizesAtCast(question),
    usualMm,
    sideBarMm,
    lives: lifeOfAllowances(question, allowances),
    needed: MONTHS.map((months) => ({
      months,
      mm: odds.map((p) => allowanceToLast(question, addDaysIso(today, Math.round(months * 30.44)), p)),
    })),
  };
}

const MOVED = ['limits', 'limitLabels', 'outgrown', 'shade', 'notes'] as const;

/** One chart and, for every amount of room, the rows that change in it: a script swaps them as the slider moves. */
export function whatIfCharts(
  answer: WhatIf,
  device: Device,
  base: Omit<GrowthChartInput, 'forecasts' | 'measure' | 'covers'>,
): { spec: Spec; steps: () => { allowanceMm: number; datasets: Spec }[] } {
  const posterior = base.posterior && remembered(base.posterior);
  const imagined = answer.lives.map(
    (life): DeviceForecast => ({
      deviceId: device.id,
      childId: device.childId,
      family: device.family,
      today: base.today,
      outcome: 'forecast',
      explanation: '',
      p10: life.p10,
      p50: life.p50,
      p90: life.p90,
      dates: [],
      probabilityOutgrown: [],
      drivers: answer.series.map((series) => ({ series, share: 1 })),
      room: answer.series.map((series, i) => ({
        series,
        allowanceMm: life.allowanceMm,
        grownMm: 0,
        grownSdMm: 0,
        roomMm: life.allowanceMm,
        roomLowMm: life.allowanceMm,
        roomHighMm: life.allowanceMm,
        limitMm: answer.nowMm[i] + life.allowanceMm,
      })),
      probabilityOutgrownNow: 0,
      modelName: '',
      modelVersion: '',
      seed: SEED,
    }),
  );
  const recast = { ...device, castDate: base.today, fittedDate: base.today };
  const record = { ...base.record, devices: [recast] };
  const input = { ...base, record, posterior, measure: answer.measure, covers: imagined };
  const chart = (forecast: DeviceForecast) => growthChart({ ...input, forecasts: [forecast], unkeyed: true });
  const usual = answer.lives.findIndex((l) => l.allowanceMm >= answer.usualMm && l.p10 !== null);
  return {
    spec: chart(imagined[Math.max(0, usual)]),
    steps: () =>
      imagined.map((forecast, i) => {
        const { datasets } = chart(forecast);
        return {
          allowanceMm: answer.lives[i].allowanceMm,
          datasets: Object.fromEntries(MOVED.map((name) => [name, datasets[name] ?? []])),
        };
      }),
  };
}

/** The same predictions, each computed once however many charts draw them. */
function remembered(posterior: ChildPosterior): ChildPosterior {
  const known = new Map<string, Prediction>();
  return {
    ...posterior,
    suspicions: posterior.suspicions,
    predict(series, days) {
      const key = `${seriesKey(series)} ${days[0]} ${days.length}`;
      const prediction = known.get(key) ?? withQuantiles(posterior.predict(series, days));
      known.set(key, prediction);
      return prediction;
    },
  };
}

function withQuantiles(prediction: Prediction): Prediction {
  const known = new Map<number, Float64Array>();
  return {
    days: prediction.days,
    mean: prediction.mean,
    sd: prediction.sd,
    quantile(p) {
      const values = known.get(p) ?? prediction.quantile(p);
      known.set(p, values);
      return values;
    },
  };
}
