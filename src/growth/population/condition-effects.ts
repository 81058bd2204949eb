import type { MeasureId } from '../../records/measure.js';
import { type ConditionId, spinaBifida } from '../../records/records.js';

/** How a condition moves the growth prior. Every number can be overruled by the child's own measurements. */
export interface ConditionEffect {
  /** Mean shift per measure, population SD. */
  readonly shift: Partial<Record<MeasureId, number>>;
  /** SD of size against the population's. */
  readonly spread: number;
  /** Shift of the affected side alone, population SD. */
  readonly affectedSideShift: Partial<Record<MeasureId, number>>;
  /** Lasting deviation of a side from the child's middle, population SD. */
  readonly sideSd: number;
  /** Variance of the residual process about the child's own curve, against the population's. */
  readonly residualVariance: number;
  /** Mean shift of tempo, population SD; negative is early. */
  readonly tempoShift: number;
  readonly source: string;
}

const bones = (stature: number, leg: number, foot: number): ConditionEffect['shift'] => ({
  stature,
  sitting_height: stature,
  leg_length: leg,
  hip_height: leg,
  knee_height: leg,
  asis_height: leg,
  ankle_height: foot,
  foot_length: foot,
  foot_breadth: foot,
});

const none: ConditionEffect = {
  shift: {},
  spread: 1,
  affectedSideShift: {},
  sideSd: 0,
  residualVariance: 1,
  tempoShift: 0,
  source: 'no change against the reference',
};
const wide = (residualVariance: number, spread: number, source: string): ConditionEffect => ({
  ...none,
  spread,
  residualVariance,
  source,
});
/** Puberty comes early with spina bifida and hydrocephalus, often by a year and more; from memory, weak. */
const EARLY_SPINA_BIFIDA = -0.8;
const OWN = 'from memory or common practice, no source; deliberately weak and wide';

export const conditionEffects: Readonly<Record<ConditionId, ConditionEffect>> = {
  none,
  'cerebral-palsy': { ...wide(1.5, 1.3, OWN), shift: bones(-0.8, -0.8, -0.8), sideSd: 0.2 },
  hemiplegia: {
    ...wide(1.3, 1.15, `side SD: leg difference mean 13 mm, SD 20.5 (AAPM&R 2021, abstract); shifts ${OWN}`),
    affectedSideShift: { ...bones(0, -0.25, -0.6), calf_girth: -0.7, thigh_girth: -0.5 },
    sideSd: 0.35,
  },
  'myelomeningocele-high': {
    ...wide(2, 1.62, 'stature -3.13 SD, SD 1.62 at or above L2: Trollmann et al. 1996, Acta Paediatr 85:76'),
    shift: bones(-3.13, -3.13, -2),
    tempoShift: EARLY_SPINA_BIFIDA,
    sideSd: 0.3,
  },
  'myelomeningocele-low': {
    ...wide(
      1.7,
      1.27,
      'stature -0.46 SD, SD 1.27 at or below S2: Trollmann et al. 1996, Acta Paediatr 85:76',
    ),
    shift: bones(-0.46, -0.46, -0.46),
    tempoShift: EARLY_SPINA_BIFIDA,
    sideSd: 0.3,
  },
  'muscular-dystrophy': { ...wide(1.5, 1.25, OWN), shift: bones(-0.7, -0.7, -0.5) },
  'spinal-muscular-atrophy': { ...wide(1.5, 1.3, OWN), shift: bones(-0.3, -0.3, -0.5) },
  arthrogryposis: { ...wide(1.5, 1.4, OWN), shift: bones(-0.8, -0.8, -0.8), sideSd: 0.3 },
  clubfoot: {
    ...wide(1.2, 1.1, OWN),
    affectedSideShift: { foot_length: -0.9, foot_breadth: -0.3, calf_girth: -0.8 },
    sideSd: 0.35,
  },
  'down-syndrome': { ...wide(1.3, 1.2, OWN), shift: bones(-2, -2, -1.8) },
  'idiopathic-scoliosis': wide(1.1, 1.1, OWN),
  'neuromuscular-scoliosis': { ...wide(1.6, 1.3, OWN), shift: bones(-0.8, -0.8, -0.6) },
  'positional-head-asymmetry': { ...none, sideSd: 0.6, source: OWN },
  'craniosynostosis-operated': { ...wide(2, 1.5, OWN), sideSd: 0.5 },
  hypotonia: wide(1.2, 1.15, OWN),
  'flexible-flat-foot': none,
  'hip-dysplasia': { ...wide(1.2, 1.1, OWN), sideSd: 0.25 },
  'leg-length-difference': { ...wide(1.2, 1.1, OWN), sideSd: 0.5 },
  other: { ...wide(1.4, 1.3, OWN), sideSd: 0.25 },
};

/** Children of these conditions grow so differently that a population's centiles mislead (common practice, no source). */
const OWN_GROWTH: readonly ConditionId[] = [
  ...spinaBifida,
  'arthrogryposis',
  'down-syndrome',
  'muscular-dystrophy',
  'spinal-muscular-atrophy',
];

export const populationChartsMislead = (conditions: readonly ConditionId[]): boolean =>
  conditions.some((c) => OWN_GROWTH.includes(c));
