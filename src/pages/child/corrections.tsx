import { measures } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';
import type { MeasurementRevision } from '../../store/contract.js';
import { seriesText } from '../parts/format.js';
import { Csrf } from '../parts/layout.js';
import type { PageContext } from '../parts/page-context.js';

/** Readings that were corrected, with the way back, and the form to correct one by hand. Originals always stay. */
export function Corrections(props: {
  context: PageContext;
  base: string;
  readings: readonly Measurement[];
  revisions: readonly MeasurementRevision[];
}) {
  const { context, base, readings, revisions } = props;
  const { format } = context;
  const byReading = new Map<string, MeasurementRevision[]>();
  for (const r of revisions) byReading.set(r.measurement.id, [...(byReading.get(r.measurement.id) ?? []), r]);
  const size = (m: Measurement) =>
    `${format.number(m.value, Number.isInteger(m.value) ? 0 : 1)} ${measures[m.measure].unit}`;
  return (
    <section class="no-print" aria-labelledby="corrections">
      <h2 id="corrections">Corrections</h2>
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
                <form method="post" action={`${base}/corrections/undo`} class="row">
                  <Csrf context={context} />
                  <input type="hidden" name="reading" value={first.measurement.id} />
                  <span>
                    {format.date(first.measurement.date)}, {seriesText(first.measurement)}:{' '}
                    {size(first.measurement)} was entered,{' '}
                    {last.withdrawn
                      ? 'now left out'
                      : `now ${seriesText(last.measurement)} ${size(last.measurement)}`}{' '}
                    <small>
                      ({last.reason}; {last.by}, {format.date(last.at.slice(0, 10))})
                    </small>
                  </span>
                  {ordered.length > 1 && <button type="submit">Take back</button>}
                </form>
              </li>
            );
          })}
        </ul>
      )}
      {readings.length > 0 && <MoveVisit context={context} base={base} readings={readings} />}
      {readings.length > 0 && (
        <details>
          <summary>Correct a reading</summary>
          <form method="post" action={`${base}/corrections`} class="row">
            <Csrf context={context} />
            <p class="field">
              <label for="correct-reading">Reading</label>
              <select id="correct-reading" name="reading">
                {readings
                  .toSorted((a, b) => b.date.localeCompare(a.date))
                  .map((m) => (
                    <option key={m.id} value={m.id}>
                      {format.date(m.date)}, {seriesText(m)}, {size(m)}
                    </option>
                  ))}
              </select>
            </p>
            <p class="field">
              <label for="correct-value">
                Right value <small>empty: leave the reading out</small>
              </label>
              <input id="correct-value" name="value" inputMode="decimal" size={10} />
            </p>
            <p class="field">
              <label for="correct-reason">Reason</label>
              <input id="correct-reason" name="reason" required maxLength={200} />
            </p>
            <p>
              <button type="submit">Correct</button>
            </p>
          </form>
        </details>
      )}
    </section>
  );
}

/** A visit entered on the wrong day. */
function MoveVisit({
  context,
  base,
  readings,
}: {
  context: PageContext;
  base: string;
  readings: readonly Measurement[];
}) {
  const { format, today } = context;
  const days = [...new Set(readings.map((m) => m.date))].toSorted().reverse();
  return (
    <details>
      <summary>Correct the day of a visit</summary>
      <form method="post" action={`${base}/visits/move`} class="row">
        <Csrf context={context} />
        <p class="field">
          <label for="visit-from">Visit entered on</label>
          <select id="visit-from" name="from">
            {days.map((d) => (
              <option key={d} value={d}>
                {format.date(d)}
              </option>
            ))}
          </select>
        </p>
        <p class="field">
          <label for="visit-to">It was on</label>
          <input id="visit-to" name="to" type="date" required max={today} />
        </p>
        <p class="field">
          <label for="visit-reason">Reason</label>
          <input id="visit-reason" name="reason" required maxLength={200} />
        </p>
        <p>
          <button type="submit">Move readings, skin checks and judgements</button>
        </p>
      </form>
    </details>
  );
}
