import { type MeasureId, measures } from '../measurements/measure.js';
import {
  fitPenalisedLms,
  type LmsObservation,
  type PenalisedLmsFit,
} from '../statistics/fit-penalised-lms.js';
import { growthTemplate } from './growth-templates.js';
import { infantAnchors } from './infant-anchors.js';
import { type ReferenceRow, type ReferenceSex, referenceSex } from './reference-table.js';
import { type SurveyRecord, surveyMeasures } from './survey-records.js';

/** The last age fitted: the survey's oldest are 20. */
const LAST_YEARS = 20;
/** Ages of the table: monthly while size changes by the week, quarterly after. */
const tableAges = [
  ...Array.from({ length: 12 }, (_, i) => i / 12),
  ...Array.from({ length: (LAST_YEARS - 1) * 4 + 1 }, (_, i) => 1 + i / 4),
];
/**
 * The axis curves are smooth on: age itself from two years on, stretched below, where a month changes as much
 * as a year does later. Chosen on the records: fitted to one half and scored on the other, age beat its
 * logarithm and its square root (source.md).
 */
const STRETCH = 0.75;
const JOIN = 2;
const axis = (ageYears: number) =>
  ageYears >= JOIN ? ageYears : JOIN + (JOIN + STRETCH) * Math.log((ageYears + STRETCH) / (JOIN + STRETCH));
const ageAt = (x: number) =>
  x >= JOIN ? x : (JOIN + STRETCH) * Math.exp((x - JOIN) / (JOIN + STRETCH)) - STRETCH;

export interface MeasureFit {
  readonly measure: MeasureId;
  readonly sex: ReferenceSex;
  readonly records: number;
  readonly fit: PenalisedLmsFit;
}

/**
 * L, M and S of every measure by sex, birth to 20 years: a penalised LMS fit to the survey's records from 2
 * years on, held under 2 years by what is printed about infants (`infantAnchors`).
 */
export function fitSurveyReference(
  records: readonly SurveyRecord[],
  onFit: (done: MeasureFit) => void = () => {},
): ReferenceRow[] {
  return surveyMeasures.flatMap((measure) =>
    referenceSex.options.flatMap((sex) => {
      const done = fitMeasure(records, measure, sex);
      onFit(done);
      return tableAges.map((ageYears) => ({ measure, sex, ageYears, ...done.fit.at(axis(ageYears)) }));
    }),
  );
}

function fitMeasure(records: readonly SurveyRecord[], measure: MeasureId, sex: ReferenceSex): MeasureFit {
  const own = records.filter((r) => r.sex === sex && r.ageYears <= LAST_YEARS + 0.5);
  const children: LmsObservation[] = own.flatMap(({ ageYears, values }) => {
    const y = values[measure];
    return y === undefined ? [] : [{ x: axis(Math.min(ageYears, LAST_YEARS)), y }];
  });
  const template = growthTemplate(measure, sex);
  const options = {
    to: axis(LAST_YEARS),
    rising: measures[measure].skeletal,
    template: (x: number) => template(ageAt(x)),
  };
  const alone = fitPenalisedLms(children, { ...options, from: axis(JOIN) });
  const anchors = infantAnchors(measure, sex, (ageYears) => alone.at(axis(ageYears)));
  const fit = fitPenalisedLms(
    [...children, ...anchors.map(({ ageYears, value, weight }) => ({ x: axis(ageYears), y: value, weight }))],
    { ...options, from: axis(0) },
  );
  return { measure, sex, records: children.length, fit };
}
