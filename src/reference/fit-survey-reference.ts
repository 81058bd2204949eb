import { DoorpostError } from '../errors.js';
import { type MeasureId, measures } from '../records/measure.js';
import {
  fitPenalisedLms,
  type LmsObservation,
  type PenalisedLmsFit,
} from '../statistics/fit-penalised-lms.js';
import type { Lms } from '../statistics/lms.js';
import { ageAt, growthAxis } from './growth-axis.js';
import { growthTemplate } from './growth-templates.js';
import { infantAnchors } from './infant-anchors.js';
import { type ReferenceRow, type ReferenceSex, referenceSex } from './reference-table.js';
import { type SurveyRecord, surveyMeasures } from './survey-records.js';

/** The last age fitted: the survey's oldest are 20. */
const LAST_YEARS = 20;
/** Fewer records of a sex cannot carry three curves over 18 years. */
const LEAST_RECORDS = 100;
/** Ages of the table: monthly while size changes by the week, quarterly after. */
const tableAges = [
  ...Array.from({ length: 12 }, (_, i) => i / 12),
  ...Array.from({ length: (LAST_YEARS - 1) * 4 + 1 }, (_, i) => 1 + i / 4),
];
/** The children's own fit holds from the second age on, the one with the infants up to the first. */
const HAND_OVER = [2, 2.5] as const;

export interface MeasureFit {
  readonly measure: MeasureId;
  readonly sex: ReferenceSex;
  readonly records: number;
  /** The fit to the children alone. */
  readonly fit: PenalisedLmsFit;
  /** L, M and S from birth to 20 years. */
  readonly at: (ageYears: number) => Lms;
}

/**
 * L, M and S of every measure by sex, birth to 20 years: a penalised LMS fit to the survey's records from 2
 * years on, held under 2 years by what is printed about infants (`infantAnchors`).
 */
export function fitSurveyReference(
  records: readonly SurveyRecord[],
  onFit: (done: MeasureFit) => void = () => {},
  wanted: readonly MeasureId[] = surveyMeasures,
): ReferenceRow[] {
  return wanted.flatMap((measure) =>
    referenceSex.options.flatMap((sex) => {
      const done = fitMeasure(records, measure, sex);
      onFit(done);
      return tableAges.map((ageYears) => ({ measure, sex, ageYears, ...done.at(ageYears) }));
    }),
  );
}

function fitMeasure(records: readonly SurveyRecord[], measure: MeasureId, sex: ReferenceSex): MeasureFit {
  const group = records.filter((r) => r.sex === sex && r.ageYears <= LAST_YEARS + 0.5);
  const children: LmsObservation[] = group.flatMap(({ ageYears, values }) => {
    const y = values[measure];
    return y === undefined ? [] : [{ x: growthAxis(Math.min(ageYears, LAST_YEARS)), y }];
  });
  if (children.length < LEAST_RECORDS)
    throw new DoorpostError(
      'invalid-file',
      `there are ${children.length} ${sex} records of ${measure} to fit; at least ${LEAST_RECORDS} are needed`,
      { field: measure, given: String(children.length), accepted: `${LEAST_RECORDS} or more` },
    );
  const template = growthTemplate(measure, sex);
  const options = {
    to: growthAxis(LAST_YEARS),
    rising: measures[measure].skeletal,
    template: (x: number) => template(ageAt(x)),
  };
  const fit = fitPenalisedLms(children, { ...options, from: growthAxis(HAND_OVER[0]) });
  const own = (ageYears: number) => fit.at(growthAxis(ageYears));
  const anchors = infantAnchors(measure, sex, own).map(({ ageYears, value, weight }) => ({
    x: growthAxis(ageYears),
    y: value,
    weight,
  }));
  const young = fitPenalisedLms([...children, ...anchors], { ...options, from: growthAxis(0) });
  const at = (ageYears: number) => {
    const share = (ageYears - HAND_OVER[0]) / (HAND_OVER[1] - HAND_OVER[0]);
    if (share >= 1) return own(ageYears);
    const below = young.at(growthAxis(ageYears));
    return share <= 0 ? below : between(below, own(ageYears), share);
  };
  return { measure, sex, records: children.length, fit, at };
}

const between = (a: Lms, b: Lms, share: number): Lms => ({
  l: a.l + share * (b.l - a.l),
  m: a.m * (b.m / a.m) ** share,
  s: a.s * (b.s / a.s) ** share,
});
