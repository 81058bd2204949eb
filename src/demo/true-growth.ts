import { conditionEffects } from '../growth/population/condition-effects.js';
import { referenceAgeYears } from '../records/age.js';
import { DAYS_A_YEAR, type DayNumber } from '../records/dates.js';
import { type MeasureId, measures, type Side } from '../records/measure.js';
import type { Child } from '../records/records.js';
import { curveOf, loadReferences, sizeAtZ } from '../reference/reference.js';
import type { Chance } from './chance.js';

/**
 * Loadings of a measure's z-score on what the body's measures share: general size, length of leg against trunk, build.
 * Chosen so that correlations come near those of the 1977 survey (foot-stature .76, knee-hip .78, hip-leg .86).
 */
const LOADINGS: Readonly<Partial<Record<MeasureId, readonly [size: number, leg: number, build: number]>>> = {
  stature: [0.92, 0.15, 0],
  sitting_height: [0.8, -0.4, 0.1],
  knee_height: [0.75, 0.45, 0],
  hip_height: [0.78, 0.48, 0],
  asis_height: [0.78, 0.48, 0],
  leg_length: [0.78, 0.52, 0],
  foot_length: [0.75, 0.2, 0.1],
  foot_breadth: [0.55, 0, 0.3],
  ankle_height: [0.3, 0.1, 0],
  pelvic_breadth: [0.55, 0, 0.4],
  weight: [0.6, 0, 0.72],
  head_circumference: [0.4, 0, 0.15],
  head_breadth: [0.35, 0, 0.1],
  head_length: [0.35, 0, 0.1],
};
const GIRTH: readonly [number, number, number] = [0.4, 0, 0.75];
/** Sexes' mean age of fastest growth, years, and SD of tempo and intensity on the axis log(age + 0.75). */
const PEAK_YEARS = { male: 13.8, female: 11.8 } as const;
const TEMPO_SD = 0.074;
const INTENSITY_SD = 0.09;
/** Under this age tempo hardly shows; it comes in over the years up to the second number. */
const TEMPO_FROM_YEARS = [3, 7] as const;
const RESIDUAL_Z = 0.12;

/** Measures without a published curve are invented as a share of one that has one (invented, no source). */
const PROPORTION: Partial<Record<MeasureId, readonly [of: MeasureId, share: number]>> = {
  heel_width: ['foot_length', 0.26],
  malleolar_width: ['foot_length', 0.28],
  fibular_head_height: ['knee_height', 0.92],
  chest_girth: ['waist_girth', 1.12],
  axillary_girth: ['waist_girth', 1.1],
  hand_length: ['stature', 0.108],
  hand_breadth: ['stature', 0.048],
  forearm_length: ['stature', 0.14],
  forearm_girth: ['stature', 0.135],
};

export type TrueGrowth = ReturnType<typeof trueGrowth>;

/** Draws a child's growth: size, build, tempo and intensity shared by all measures, and a slow residual process of each. */
export function trueGrowth(child: Child, affected: readonly Side[], c: Chance) {
  const sex = child.sex === 'unknown' ? c.oneOf(['male', 'female'] as const) : child.sex;
  const effect = conditionEffects[child.conditions[0] ?? 'none'];
  const shared = [c.normal(), c.normal(), c.normal()] as const;
  const tempo = TEMPO_SD * c.normal();
  const intensity = INTENSITY_SD * c.normal();
  const refs = loadReferences();
  const own = new Map<string, number>();
  /** A lasting number of this child by name, drawn when first asked for; the order of asking is the story's. */
  const lasting = (name: string, draw: () => number): number => {
    const known = own.get(name) ?? draw();
    own.set(name, known);
    return known;
  };

  const maturityYears = (day: DayNumber): number => {
    const age = referenceAgeYears(child.birthDate, day, child.gestationWeeks);
    if (age <= TEMPO_FROM_YEARS[0]) return age;
    const centre = Math.log(PEAK_YEARS[sex] + 0.75);
    const warped = Math.exp(centre + Math.exp(intensity) * (Math.log(age + 0.75) - centre - tempo)) - 0.75;
    const [from, to] = TEMPO_FROM_YEARS;
    const share = Math.min(1, (age - from) / (to - from));
    return age + share * share * (3 - 2 * share) * (warped - age);
  };

  const zScore = (measure: MeasureId, side: Side, day: DayNumber): number => {
    const [size, leg, build] = LOADINGS[measure] ?? GIRTH;
    const specific = Math.sqrt(Math.max(0.05, 1 - size ** 2 - leg ** 2 - build ** 2));
    const z = size * shared[0] + leg * shared[1] + build * shared[2] + specific * lasting(measure, c.normal);
    const sideZ = side === 'none' ? 0 : (0.1 + effect.sideSd) * lasting(`${measure}/${side}`, c.normal);
    const affectedZ = affected.includes(side) ? (effect.affectedSideShift[measure] ?? 0) : 0;
    const period = lasting(`${measure} period`, () => c.between(4, 9)) * DAYS_A_YEAR;
    const phase = lasting(`${measure} phase`, () => c.between(0, 2 * Math.PI));
    const residual =
      RESIDUAL_Z * Math.sqrt(effect.residualVariance) * Math.sin((2 * Math.PI * day) / period + phase);
    return (
      Math.max(-3.5, Math.min(3, z * Math.sqrt(effect.spread) + sideZ + affectedZ + residual)) +
      (effect.shift[measure] ?? 0)
    );
  };

  const size = (measure: MeasureId, side: Side, day: DayNumber): number => {
    if (measure === 'head_diagonal') return headDiagonal(side, day);
    const [of, share] = PROPORTION[measure] ?? [];
    if (of !== undefined && share !== undefined)
      return share * size(of, measures[of].sided ? side : 'none', day);
    const curve = curveOf(refs, measure, sex);
    if (curve === null) throw new RangeError(`no reference to invent ${measure} from`);
    const age = Math.max(curve.fromYears, Math.min(curve.toYears, maturityYears(day)));
    return sizeAtZ(curve.at(age), zScore(measure, side, day));
  };

  /** Diagonals differ by up to 14 mm in a flattened head and draw together while it is treated. */
  const headDiagonal = (side: Side, day: DayNumber): number => {
    const mean = 0.52 * (size('head_breadth', 'none', day) + size('head_length', 'none', day));
    const flattened = lasting('flattened side', () => (c.happens(0.5) ? 1 : -1));
    const difference = lasting('flattening', () => c.between(6, 14));
    const left = Math.exp(-Math.max(0, maturityYears(day) - 0.4) / 0.5);
    return mean + (side === 'left' ? 1 : -1) * flattened * 0.5 * difference * left;
  };

  return {
    /** True size, mm (kg for weight), on any day: what every reading is taken from. */
    size,
    /** Biological age, years: what a maturity marker reads. */
    maturityYears,
  };
}

/** A reading as a clinic writes it: to whole millimetres, heads to half, weight to 100 g; never a size no body has. */
export function readingOf(measure: MeasureId, size: number): number {
  const { plausible } = measures[measure];
  const length = measure.startsWith('head') ? 0.5 : 1;
  const step = measure === 'weight' ? 0.1 : length;
  const [min, max] = plausible;
  return Number((Math.round(Math.max(min, Math.min(max, size)) / step) * step).toFixed(1));
}
