import { dayNumber } from '../../records/dates.js';
import type { MaturityMarker } from '../../records/records.js';
import { normalCdf } from '../../statistics/normal-cdf.js';
import type { GrowthInput } from '../contract.js';
import { ageOfLogAge, growthAgeYears, logAge } from '../population/growth-age.js';
import type { GridPoint, Submodel } from '../population/submodel.js';

type Sex = 'male' | 'female';
/** Where a stage lies, years after the child's own peak height velocity; `before`/`after`: open to that side. */
interface Stage {
  readonly years: number;
  readonly sd: number;
  readonly open?: 'before' | 'after';
}

/** Bone age against the age at which the average child is as mature; SD of reading and of bones against growth. */
export const BONE_AGE_SD_YEARS = 0.75;
/** Menarche follows peak height velocity; correlation of the two ages about 0.9. From memory (Tanner). */
const MENARCHE: Stage = { years: 1.2, sd: 0.6 };
/** First signs of puberty come before the peak: girls' breast, boys' genital stage 2. From memory (Marshall & Tanner). */
const PUBERTY_ONSET: Record<Sex, Stage> = { female: { years: -1.2, sd: 0.8 }, male: { years: -2, sd: 0.9 } };
/** Standard error of the published maturity-offset equations, years (Mirwald 2002, about 0.6; from memory). */
const OFFSET_SD_YEARS = 0.6;
/** Simplified skeletal maturity stage of the hand, 1..8. From memory (Sanders 2008); SDs own, wide. */
const HAND: readonly Stage[] = [
  { years: -1.6, sd: 0.8, open: 'before' },
  { years: -0.9, sd: 0.7 },
  { years: -0.1, sd: 0.6 },
  { years: 0.6, sd: 0.6 },
  { years: 1.1, sd: 0.6 },
  { years: 1.8, sd: 0.7 },
  { years: 2.8, sd: 0.8 },
  { years: 3.6, sd: 0.9, open: 'after' },
];
/** Ossification stage of the iliac apophysis, 0..5. From memory; SDs own, wide. */
const PELVIS: readonly Stage[] = [
  { years: 0.9, sd: 0.8, open: 'before' },
  { years: 1.1, sd: 0.7 },
  { years: 1.5, sd: 0.7 },
  { years: 2, sd: 0.8 },
  { years: 2.9, sd: 0.9 },
  { years: 3.6, sd: 1, open: 'after' },
];

/**
 * Log likelihood of a child's maturity markers at a grid point: evidence on tempo besides growth itself. A marker
 * with its own `sdYears` uses that. Submodels without tempo are left as they are.
 */
export function markerEvidence(input: GrowthInput): (submodel: Submodel, at: GridPoint) => number {
  const markers = input.markers.map((marker) => ({
    marker,
    ageYears: growthAgeYears(input.birthDate, dayNumber(marker.date), input.gestationWeeks),
  }));
  return (submodel, at) =>
    !submodel.seeksTempo
      ? 0
      : markers.reduce((sum, m) => sum + logLikelihood(m.marker, m.ageYears, submodel, at), 0);
}

function logLikelihood(marker: MaturityMarker, ageYears: number, submodel: Submodel, at: GridPoint): number {
  const sex = submodel.curves.sex;
  const sincePeak = ageYears - submodel.peakVelocityAgeYears - submodel.tempoYears(at.tempo);
  const given = (s: Stage): Stage => ({ ...s, sd: marker.sdYears ?? s.sd });
  switch (marker.kind) {
    case 'bone-age': {
      const mature = ageOfLogAge(submodel.maturity(logAge(ageYears), at));
      return normalLog(marker.value - mature, marker.sdYears ?? BONE_AGE_SD_YEARS);
    }
    case 'menarche':
      return sex === 'male' ? Math.log(1e-6) : stageLog(sincePeak, given(MENARCHE));
    case 'pre-pubertal':
      return stageLog(sincePeak, { ...given(PUBERTY_ONSET[sex]), open: 'before' });
    case 'maturity-offset':
      return normalLog(marker.value - sincePeak, marker.sdYears ?? OFFSET_SD_YEARS);
    case 'hand-stage':
      return stageLog(sincePeak, given(stageOf(HAND, marker.value - 1)));
    case 'pelvis-stage':
      return stageLog(sincePeak, given(stageOf(PELVIS, marker.value)));
  }
}

const stageOf = (stages: readonly Stage[], i: number) =>
  stages[Math.min(stages.length - 1, Math.max(0, Math.round(i)))];

function stageLog(sincePeak: number, { years, sd, open }: Stage): number {
  const z = (sincePeak - years) / sd;
  if (open === 'before') return Math.log(Math.max(normalCdf(-z), 1e-12));
  if (open === 'after') return Math.log(Math.max(normalCdf(z), 1e-12));
  return -0.5 * z * z;
}

const normalLog = (difference: number, sd: number) => -0.5 * (difference / sd) ** 2;
