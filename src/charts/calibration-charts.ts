/** Do the odds mean what they say? Coverage and probability-integral-transform histograms by age and horizon. */
import { fillSpec, type Spec } from './fill-spec.js';
import { timeLocale } from './time-locale.js';

/** One age band and horizon, as the backtest reports it. */
export interface CalibrationCell {
  readonly ageBand: string;
  readonly horizonYears: number;
  readonly n: number;
  /** Forecasts by tenth of the predictive distribution the truth fell in. */
  readonly pitCounts: readonly number[];
  readonly coverage: readonly {
    readonly level: number;
    readonly share: number;
    readonly seByChild: number;
  }[];
}

const percent = (share: number) => 100 * share;
const ahead = (years: number) =>
  years === 0.5 ? '6 months ahead' : `${years} year${years === 1 ? '' : 's'} ahead`;
const distinct = (values: readonly string[]) => [...new Set(values)];

interface CalibrationChart {
  /** 'Leg length', as the title begins. */
  readonly measure: string;
  readonly cells: readonly CalibrationCell[];
}

/** Share of truths inside each band, by age, with twice its standard error by child; ticks mark the level named. */
export function calibrationCoverage({ measure, cells }: CalibrationChart): Spec {
  const rows = cells.flatMap((cell) =>
    cell.coverage.map(({ level, share, seByChild }) => ({
      horizon: ahead(cell.horizonYears),
      ageBand: cell.ageBand,
      level: `${percent(level)} % band`,
      nominalPercent: percent(level),
      sharePercent: percent(share),
      lowPercent: Math.max(0, percent(share - 2 * seByChild)),
      highPercent: Math.min(100, percent(share + 2 * seByChild)),
    })),
  );
  return fillSpec(
    'calibration-coverage',
    {
      title: `${measure}: how often the truth fell inside the prediction band`,
      subtitle:
        'Tick: the level the band names. Mark: what happened, with twice its standard error counted by child.',
      description: `Coverage of prediction bands of ${measure} by age and horizon`,
      horizons: distinct(rows.map((r) => r.horizon)),
      ageBands: distinct(rows.map((r) => r.ageBand)),
      levels: distinct([...rows].sort((a, b) => b.nominalPercent - a.nominalPercent).map((r) => r.level)),
      shareDomain: [Math.min(30, ...rows.map((r) => r.lowPercent)), 100],
      ageTitle: 'Age at the forecast, years',
      shareTitle: 'Truths inside the band, %',
      levelTitle: 'Prediction band',
    },
    { coverage: rows },
    timeLocale('en'),
  );
}

/** Where in its predictive distribution the truth fell, in tenths: level bars mean honest odds. */
export function calibrationHistograms({ measure, cells }: CalibrationChart): Spec {
  const rows = cells.flatMap((cell) =>
    cell.pitCounts.map((count, tenth) => ({
      horizon: ahead(cell.horizonYears),
      ageBand: `age ${cell.ageBand} y`,
      from: tenth / 10,
      to: (tenth + 1) / 10,
      sharePercent: percent(count / cell.n),
      evenPercent: percent(1 / cell.pitCounts.length),
    })),
  );
  return fillSpec(
    'calibration-histograms',
    {
      title: `${measure}: where in its prediction the truth fell`,
      subtitle:
        'Dashed: the even share. High ends: bands too narrow. High middle: too wide. A slope: forecasts too low (right) or high (left).',
      description: `Probability integral transform of ${measure} by age and horizon`,
      horizons: distinct(rows.map((r) => r.horizon)),
      ageBands: distinct(rows.map((r) => r.ageBand)),
      shareDomain: [0, Math.max(20, ...rows.map((r) => r.sharePercent)) * 1.05],
      pitTitle: 'Share of the prediction below the truth',
      shareTitle: 'Forecasts, %',
    },
    { histogram: rows },
    timeLocale('en'),
  );
}
