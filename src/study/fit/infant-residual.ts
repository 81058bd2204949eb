import { denseCholesky, denseForward } from '../../statistics/dense-cholesky.js';
import { groupBy } from '../../statistics/group-by.js';
import { maternThreeHalves } from '../../statistics/matern-three-halves.js';
import { normalQuantile } from '../../statistics/normal-quantile.js';
import { rounded } from '../../statistics/rounded.js';
import { ratioByChild } from '../backtest/ratio-by-child.js';
import type { InfantCase } from './infant-cases.js';

/** An infant's length z-score: a lasting level, a residual process about it, and the error of each reading. */
interface ResidualProcess {
  /** SD of the level and of the residual process, z. */
  readonly size: number;
  readonly sd: number;
  /** Of the residual process, log-age. */
  readonly lengthScale: number;
  readonly errorMm: number;
}

export type InfantResidual = ReturnType<typeof infantResidual>;

const CANDIDATES = [0.7, 0.8, 0.9, 1].flatMap((size) =>
  [0.3, 0.4, 0.5, 0.6, 0.7].flatMap((sd) =>
    [0.25, 0.35, 0.5, 0.7, 1].flatMap((lengthScale) =>
      [3, 4, 5, 6].map((errorMm): ResidualProcess => ({ size, sd, lengthScale, errorMm })),
    ),
  ),
);
const FOLDS = 5;
const HALF_80 = normalQuantile(0.9);

/**
 * The residual process under which what infants measured one to four months later is likeliest. The likelihood of their whole
 * records asks for a rougher one (they were measured daily), and forecast no better than staying on the centile.
 */
export function infantResidual(cases: readonly InfantCase[]) {
  const tried = CANDIDATES.map((residual) => ({
    residual,
    forecasts: cases.map((c) => forecast(c, residual)),
  }));
  const likeliest = (count: (c: InfantCase) => boolean) => {
    const score = (all: readonly Forecast[]) =>
      all.reduce(
        (sum, f, i) => sum - (count(cases[i]) ? 0.5 * (f.errorMm / f.sdMm) ** 2 + Math.log(f.sdMm) : 0),
        0,
      );
    const scores = tried.map((t) => score(t.forecasts));
    return tried[scores.indexOf(Math.max(...scores))];
  };
  const children = [...new Set(cases.map((c) => c.childId))];
  const fold = new Map(children.map((id, i) => [id, i % FOLDS]));
  const leftOut = Array.from({ length: FOLDS }, (_, f) => likeliest((c) => fold.get(c.childId) !== f));
  const unseen = cases.map((c, i) => ({ ...c, ...leftOut[fold.get(c.childId) as number].forecasts[i] }));
  const { size, sd, lengthScale, errorMm } = likeliest(() => true).residual;
  return {
    sizeShare: size ** 2 / (size ** 2 + sd ** 2),
    ...{ sd, lengthScale, errorMm },
    children: children.length,
    errors: [...groupBy(unseen, (c) => c.monthsAhead).values()].map(errorOf),
  };
}

/** How infants were forecast that the residual process was not estimated from. Standard errors count children. */
function errorOf(cell: readonly (InfantCase & Forecast)[]) {
  const cover = ratioByChild(cell, (c) => Number(Math.abs(c.errorMm) < HALF_80 * c.sdMm));
  const [own, centile] = [(c: Forecast) => Math.abs(c.errorMm), (c: Forecast) => Math.abs(c.centileErrorMm)];
  const ratio = ratioByChild(cell, own, centile);
  return {
    monthsAhead: cell[0].monthsAhead,
    n: cell.length,
    maeMm: rounded(ratioByChild(cell, own).ratio, 2),
    coverage80: rounded(cover.ratio),
    coverage80Se: rounded(cover.se),
    // Error against staying on the published centile of the last reading.
    toCentile: rounded(ratio.ratio),
    toCentileSe: rounded(ratio.se),
  };
}

type Forecast = ReturnType<typeof forecast>;

function forecast({ known, later }: InfantCase, { size, sd, lengthScale, errorMm }: ResidualProcess) {
  const n = known.length;
  const between = (a: number, b: number) => size ** 2 + sd ** 2 * maternThreeHalves(a - b, lengthScale);
  const factor = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) factor[i * n + j] = between(known[i].x, known[j].x);
    factor[i * n + i] += (errorMm * known[i].perMm) ** 2;
  }
  denseCholesky(factor, n);
  const z = Float64Array.from(known, (r) => r.z);
  const cross = Float64Array.from(known, (r) => between(r.x, later.x));
  denseForward(factor, n, z);
  denseForward(factor, n, cross);
  const expected = cross.reduce((sum, c, i) => sum + c * z[i], 0);
  const variance = between(later.x, later.x) - cross.reduce((sum, c) => sum + c * c, 0);
  return {
    errorMm: (expected - later.z) / later.perMm,
    // Of the reading to come, its own error included.
    sdMm: Math.sqrt(variance / later.perMm ** 2 + errorMm ** 2),
    centileErrorMm: (known[n - 1].z - later.z) / later.perMm,
  };
}
