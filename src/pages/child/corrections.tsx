import { plainSeries } from '../../forecast/words.js';
import { measures } from '../../records/measure.js';
import { measurementFields } from '../../records/record-fields.js';
import type { Measurement } from '../../records/records.js';
import { LONGEST_REASON } from '../../records/records.js';
import { groupBy } from '../../statistics/group-by.js';
import type { MeasurementRevision } from '../../store/contract.js';
import { Form, InputField, SelectField, Submit } from '../parts/form.js';
import { Section } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';

/** Readings that were corrected, with the way back, and the form to correct one by hand. Originals always stay. */
export function Corrections(props: {
  base: string;
  readings: readonly Measurement[];
  revisions: readonly MeasurementRevision[];
}) {
  const { base, readings, revisions } = props;
  const { format } = usePage();
  const byReading = groupBy(revisions, (r) => r.measurement.id);
  const size = (m: Measurement) =>
    `${format.number(m.value, Number.isInteger(m.value) ? 0 : 1)} ${measures[m.measure].unit}`;
  return (
    <Section id="corrections" title="Corrections" class="no-print">
      {byReading.size === 0 ? (
        <p>No reading of this child was ever corrected.</p>
      ) : (
        <ul>
          {[...byReading.values()].map((own) => {
            const ordered = own.toSorted((a, b) => a.revision - b.revision);
            const first = ordered[0];
            const last = ordered[ordered.length - 1];
            return (
              <li key={first.measurement.id}>
                <Form
                  action={`${base}/corrections/undo`}
                  class="row"
                  hidden={{ reading: first.measurement.id }}
                >
                  <span>
                    {format.date(first.measurement.date)}, {plainSeries(first.measurement)}:{' '}
                    {size(first.measurement)} was entered,{' '}
                    {last.withdrawn
                      ? 'now left out'
                      : `now ${plainSeries(last.measurement)} ${size(last.measurement)}`}{' '}
                    <small>
                      ({last.reason}; {last.by}, {format.day(last.at)})
                    </small>
                  </span>
                  {ordered.length > 1 && <Submit>Take back</Submit>}
                </Form>
              </li>
            );
          })}
        </ul>
      )}
      {readings.length > 0 && <MoveVisit base={base} readings={readings} />}
      {readings.length > 0 && (
        <details>
          <summary>Correct a reading</summary>
          <Form action={`${base}/corrections`} class="row" send="Correct">
            <SelectField
              label="Reading"
              id="correct-reading"
              name="reading"
              of={readings
                .toSorted((a, b) => b.date.localeCompare(a.date))
                .map((m) => [m.id, `${format.date(m.date)}, ${plainSeries(m)}, ${size(m)}`] as const)}
            />
            <InputField
              label={measurementFields.value.label}
              hint="empty: leave the reading out"
              id="correct-value"
              name="value"
              inputMode="decimal"
              size={10}
            />
            <InputField
              label="Reason"
              id="correct-reason"
              name="reason"
              required
              maxLength={LONGEST_REASON}
            />
          </Form>
        </details>
      )}
    </Section>
  );
}

function MoveVisit({ base, readings }: { base: string; readings: readonly Measurement[] }) {
  const { format, today } = usePage();
  const days = [...new Set(readings.map((m) => m.date))].toSorted().reverse();
  return (
    <details>
      <summary>Correct the day of a visit</summary>
      <Form action={`${base}/visits/move`} class="row" send="Move readings, skin checks and judgements">
        <SelectField
          label="Visit entered on"
          id="visit-from"
          name="from"
          of={days.map((d) => [d, format.date(d)] as const)}
        />
        <InputField label="It was on" id="visit-to" name="to" type="date" required max={today} />
        <InputField label="Reason" id="visit-reason" name="reason" required maxLength={LONGEST_REASON} />
      </Form>
    </details>
  );
}
