import type { ChildPosterior } from '../../growth/contract.js';
import { decimalAgeYears } from '../../records/age.js';
import type { ChildRecord } from '../../records/caseload.js';
import { dayNumber, type IsoDate } from '../../records/dates.js';
import { type MeasureId, measureIds, measures, type Side, technicalErrorAt } from '../../records/measure.js';
import type { FitRules } from '../../rules/fit-rule.js';

/** What the child's own record leads one to read on a day, technical error of the reading included. */
export interface ExpectedSize {
  readonly measure: MeasureId;
  readonly side: Side;
  readonly expected: number | null;
  readonly sd: number | null;
  readonly last: { readonly value: number; readonly date: IsoDate } | null;
}

/** Every series a visit can enter, with its expectation on `date`. */
export function expectedSizes(
  record: ChildRecord,
  posterior: ChildPosterior | null,
  date: IsoDate,
): ExpectedSize[] {
  const ageYears = decimalAgeYears(record.child.birthDate, date);
  return measureIds.flatMap((measure) =>
    (measures[measure].sided ? (['left', 'right'] as const) : (['none'] as const)).map(
      (side): ExpectedSize => {
        const last = record.measurements
          .filter((m) => m.measure === measure && m.side === side)
          .toSorted((a, b) => a.date.localeCompare(b.date))
          .at(-1);
        const prediction = posterior && predicted(posterior, measure, side, date);
        return {
          measure,
          side,
          expected: prediction?.mean ?? null,
          sd: prediction ? Math.hypot(prediction.sd, technicalErrorAt(measure, ageYears)) : null,
          last: last ? { value: last.value, date: last.date } : null,
        };
      },
    ),
  );
}

/** Measures of the model only; others have no prediction of their own. */
function predicted(posterior: ChildPosterior, measure: MeasureId, side: Side, date: IsoDate) {
  if (!posterior.knows(measure)) return null;
  const { mean, sd } = posterior.predict({ measure, side }, [dayNumber(date)]);
  return Number.isFinite(mean[0]) && Number.isFinite(sd[0]) ? { mean: mean[0], sd: sd[0] } : null;
}

/** Measures this child's devices are limited by or that were taken before, in the order of the list; stature always, and the
 * foot of whom nothing is known. */
export function usualMeasures(record: ChildRecord, rules: FitRules): MeasureId[] {
  const limiting = record.devices
    .filter((d) => d.status !== 'retired')
    .flatMap((d) => rules.get(d.family)?.dimensions.map((x) => x.measure) ?? []);
  const taken = record.measurements.map((m) => m.measure);
  const own = [...limiting, ...taken];
  const wanted = new Set<MeasureId>(['stature', ...(own.length > 0 ? own : ['foot_length' as const])]);
  return measureIds.filter((m) => wanted.has(m));
}
