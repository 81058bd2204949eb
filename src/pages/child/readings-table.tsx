import { measures, type Side } from '../../records/measure.js';
import type { ScoredReading } from '../../service/child-view/child-charts.js';
import { ScrollBox } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';

/** Readings of one measure by date, left and right beside each other, with z-scores and doubts. */
export function ReadingsTable(props: { readings: readonly ScoredReading[]; childId: string }) {
  const { readings } = props;
  if (readings.length === 0) return null;
  const { format } = usePage();
  const { unit, sided, label } = measures[readings[0].measure];
  const sides: readonly Side[] = sided ? ['left', 'right'] : ['none'];
  const dates = [...new Set(readings.map((r) => r.date))].toSorted().reverse();
  const digits = readings.some((r) => !Number.isInteger(r.value)) ? 1 : 0;
  const cell = (date: string, side: Side) => {
    const own = readings.filter((r) => r.date === date && r.side === side);
    return own.length === 0
      ? '–'
      : own.map((r) => (
          <div key={r.id}>
            {format.number(r.value, digits)}{' '}
            <small>{r.zScore === null ? '' : `z ${format.number(r.zScore, 1)}`}</small>
            {r.expected !== null && (
              <>
                {' '}
                <span class="tag due">in doubt, about {format.number(r.expected)} expected</span>
              </>
            )}
          </div>
        ));
  };
  return (
    <details open={dates.length <= 6}>
      <summary>
        {label}: {dates.length} {dates.length === 1 ? 'date' : 'dates'} measured
      </summary>
      <ScrollBox label="Readings by date">
        <table>
          <thead>
            <tr>
              <th scope="col">Date</th>
              {sides.map((s) => (
                <th scope="col" key={s}>
                  {s === 'none' ? label : s}, {unit}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {dates.map((date) => (
              <tr key={date}>
                <th scope="row">{format.date(date)}</th>
                {sides.map((s) => (
                  <td key={s}>{cell(date, s)}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollBox>
      <p class="hint">
        z: standard deviations from the reference median. It describes size against other children and is not
        a diagnosis.
      </p>
    </details>
  );
}
