import { DoorpostError } from '../errors.js';
import { type MeasureId, measures } from '../records/measure.js';
import {
  fitPenalisedLms,
  type LmsObservation,
  type PenalisedLmsFit,
} from '../statistics/fit-penalised-lms.js';
import type { Lms } from '../statistics/lms.js';
import { atReferenceStature } from './at-reference-stature.js';
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
/** Where the fit to the children alone starts. */
const CHILDREN_FROM_YEARS = 2;
/** Ages a quarter of a year apart between which growth may only slow down; girths only until they round off. */
const slowingAges = (until: number) =>
  Array.from({ length: 4 * (until - SLOWS_FROM_YEARS) + 1 }, (_, i) => SLOWS_FROM_YEARS + i / 4);
/** From this age on a foot grows no faster, as a share of its size, than the child: every source has feet stop first. */
const FEET: readonly MeasureId[] = ['foot_length', 'foot_breadth'];
const FEET_BEHIND_YEARS = 13.5;
const SLOWS_FROM_YEARS = 0.5;
const BONES_SLOW_UNTIL_YEARS = 6.5;
const GIRTHS_SLOW_UNTIL_YEARS = 3;

export interface MeasureFit {
  readonly measure: MeasureId;
  readonly sex: ReferenceSex;
  readonly records: number;
  readonly fit: PenalisedLmsFit;
  /** L, M and S from birth to 20 years. */
  readonly at: (ageYears: number) => Lms;
}

/**
 * L, M and S of every measure by sex, birth to 20 years: one penalised LMS fit to the survey's records from 2
 * years on and to what is printed about infants under 2 (`infantAnchors`), laid to meet the children's own.
 * Growth may only slow down from half a year to 6 years: where an infants' table and a children's survey
 * disagree, the difference must not be taken for growth.
 */
export function fitSurveyReference(
  records: readonly SurveyRecord[],
  onFit: (done: MeasureFit) => void = () => {},
): ReferenceRow[] {
  return surveyMeasures.flatMap((measure) =>
    referenceSex.options.flatMap((sex) => {
      const done = fitMeasure(records, measure, sex);
      onFit(done);
      return tableAges.map((ageYears) => ({ measure, sex, ageYears, ...done.at(ageYears) }));
    }),
  );
}

function fitMeasure(records: readonly SurveyRecord[], measure: MeasureId, sex: ReferenceSex): MeasureFit {
  const group = records.filter((r) => r.sex === sex && r.ageYears <= LAST_YEARS + 0.5);
  const stature = growthTemplate('stature', sex);
  const sizeOf = FEET.includes(measure)
    ? atReferenceStature(group, measure, stature)
    : (r: SurveyRecord) => r.values[measure];
  const children: LmsObservation[] = group.flatMap((r) => {
    const y = sizeOf(r);
    return y === undefined ? [] : [{ x: growthAxis(Math.min(r.ageYears, LAST_YEARS)), y }];
  });
  if (children.length < LEAST_RECORDS)
    throw new DoorpostError(
      'invalid-file',
      `there are ${children.length} ${sex} records of ${measure} to fit; at least ${LEAST_RECORDS} are needed`,
      { field: measure, given: String(children.length), accepted: `${LEAST_RECORDS} or more` },
    );
  const template = growthTemplate(measure, sex);
  const { skeletal } = measures[measure];
  const options = {
    to: growthAxis(LAST_YEARS),
    rising: skeletal,
    template: (x: number) => template(ageAt(x)),
    ...(FEET.includes(measure) && {
      behind: {
        curve: (x: number) => stature(ageAt(x)),
        from: growthAxis(FEET_BEHIND_YEARS),
      },
    }),
  };
  const alone = fitPenalisedLms(children, { ...options, from: growthAxis(CHILDREN_FROM_YEARS) });
  const anchors = infantAnchors(measure, sex, (age) => alone.at(growthAxis(age))).map(
    ({ ageYears, value, weight }) => ({ x: growthAxis(ageYears), y: value, weight }),
  );
  const fit = fitPenalisedLms([...children, ...anchors], {
    ...options,
    from: growthAxis(0),
    slowing: slowingAges(skeletal ? BONES_SLOW_UNTIL_YEARS : GIRTHS_SLOW_UNTIL_YEARS).map(growthAxis),
  });
  return { measure, sex, records: children.length, fit, at: (age) => fit.at(growthAxis(age)) };
}
