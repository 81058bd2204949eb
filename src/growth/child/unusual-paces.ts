import { dayNumber } from '../../records/dates.js';
import type { MeasureId } from '../../records/measure.js';
import type { GrowthInput } from '../contract.js';
import { conditionEffects } from '../population/condition-effects.js';
import { ageOfLogAge, growthAgeYears, logAge } from '../population/growth-age.js';
import type { Submodel } from '../population/submodel.js';
import { clockedSubmodel } from './clocked-submodel.js';
import type { Reading } from './readings.js';
import { type BoneGroup, boneGroups, type Standstill, standstills } from './standstills.js';

/** One clock a child's growth may run on, and how likely that is before the readings have a say. */
export interface Pace {
  readonly submodel: Submodel;
  readonly probability: number;
}

/** Age at which half of what makes children of a sex stop early has happened, years; feet first. Own, from the reference. */
const ENDS: Record<'male' | 'female', Record<BoneGroup, number>> = {
  male: { feet: 14.5, legs: 15, trunk: 16 },
  female: { feet: 12, legs: 13, trunk: 14.2 },
};
/** How soon about that age, years. Own. */
const END_SPREAD = 0.6;
/**
 * The largest chance that growth ended ahead of the child's tempo, and the same once a marker says that it is nearly
 * over. Own. Legs and trunk were followed for years and end where their tempo says: 0.35 for legs made forecasts of
 * followed children 1.4 % worse. Feet were not.
 */
const END_MOST: Record<BoneGroup, number> = { feet: 0.35, legs: 0.05, trunk: 0.05 };
const END_MARKED: Record<BoneGroup, number> = { feet: 0.5, legs: 0.1, trunk: 0.1 };
/** Growth held up for a while, by illness, surgery or disuse: in health, and with a condition with a wide residual process. Own. */
const HELD_UP = 0.004;
/** Half of those held up make up for it: the clock then runs so many times as fast until the pause is regained. Own. */
const CATCHING_UP = 0.5;
const CATCH_UP_TIMES = 1.7;
const HELD_UP_ILL = 0.02;
const WIDE_RESIDUAL = 1.3;
/** Growth hormone: how much faster the clock runs for two years, and how often. From memory; own weights. */
const HORMONE: readonly (readonly [times: number, probability: number])[] = [
  [1.25, 0.45],
  [1.6, 0.3],
];
const HORMONE_YEARS = 2;

/** The submodel on its usual clock, and on those that the child's record gives a reason to think of. */
export function unusualPaces(
  usual: Submodel,
  input: GrowthInput,
  seen: readonly Reading[],
  measures: readonly MeasureId[],
): Pace[] {
  const others = [
    ...standstills(seen, measures, usual.curves).flatMap((s) => stopped(usual, s, input, measures)),
    ...hastened(usual, input),
  ];
  const left = 1 - others.reduce((sum, p) => sum + p.probability, 0);
  return [{ submodel: usual, probability: left }, ...others];
}

function stopped(usual: Submodel, s: Standstill, input: GrowthInput, measures: readonly MeasureId[]): Pace[] {
  const ids: readonly MeasureId[] = boneGroups[s.group];
  const inGroup = measures.map((id) => ids.includes(id));
  const ended = clockedSubmodel(usual, `${s.group} stopped`, (d, x) =>
    inGroup[d] ? Math.min(x, s.from) : x,
  );
  const pause = ageOfLogAge(s.to) - ageOfLogAge(s.from);
  const held = clockedSubmodel(usual, `${s.group} held up`, (d, x) => {
    if (!inGroup[d] || x <= s.from) return x;
    return x <= s.to ? s.from : logAge(ageOfLogAge(x) - pause);
  });
  const caughtUp = clockedSubmodel(usual, `${s.group} catching up`, (d, x) => {
    if (!inGroup[d] || x <= s.from) return x;
    if (x <= s.to) return s.from;
    const regained = Math.min(pause, (CATCH_UP_TIMES - 1) * (ageOfLogAge(x) - ageOfLogAge(s.to)));
    return logAge(ageOfLogAge(x) - pause + regained);
  });
  const age = ageOfLogAge(s.to);
  const over = nearlyOver(input, age)
    ? END_MARKED[s.group]
    : END_MOST[s.group] / (1 + Math.exp((ENDS[usual.curves.sex][s.group] - age) / END_SPREAD));
  const ill = input.conditions.some((c) => conditionEffects[c].residualVariance >= WIDE_RESIDUAL);
  return [
    { submodel: ended, probability: over },
    { submodel: held, probability: (1 - CATCHING_UP) * (ill ? HELD_UP_ILL : HELD_UP) },
    { submodel: caughtUp, probability: CATCHING_UP * (ill ? HELD_UP_ILL : HELD_UP) },
  ];
}

/** A pelvis or hand stage of the last phase, or two years since menarche. Stages from memory, see marker-evidence.ts. */
function nearlyOver(input: GrowthInput, ageYears: number): boolean {
  return input.markers.some((m) => {
    if (m.kind === 'pelvis-stage') return m.value >= 4;
    if (m.kind === 'hand-stage') return m.value >= 7;
    if (m.kind !== 'menarche') return false;
    return ageYears - growthAgeYears(input.birthDate, dayNumber(m.date), input.gestationWeeks) >= 2;
  });
}

function hastened(usual: Submodel, input: GrowthInput): Pace[] {
  if (!input.hormoneFrom) return [];
  const from = growthAgeYears(input.birthDate, dayNumber(input.hormoneFrom), input.gestationWeeks);
  const to = input.hormoneTo
    ? growthAgeYears(input.birthDate, dayNumber(input.hormoneTo), input.gestationWeeks)
    : Number.POSITIVE_INFINITY;
  const lasts = Math.max(0, Math.min(HORMONE_YEARS, to - from));
  return HORMONE.map(([times, probability]) => ({
    probability,
    submodel: clockedSubmodel(usual, `${times} times as fast`, (_, x) => {
      const since = ageOfLogAge(x) - from;
      return since <= 0 ? x : logAge(ageOfLogAge(x) + (times - 1) * Math.min(since, lasts));
    }),
  }));
}
