import { counted } from '../../records/counted.js';
import { measures, type Side, seriesOf } from '../../records/measure.js';
import type { ScoredReading } from '../../service/child-view/child-charts.js';
import { usePage } from '../parts/page-context.js';
import { type Column, Table } from '../parts/table.js';

/** Readings of one measure by date, left and right beside each other, with z-scores and doubts. */
export function ReadingsTable({ readings }: { readings: readonly ScoredReading[] }) {
  if (readings.length === 0) return null;
  const { format } = usePage();
  const { unit, label } = measures[readings[0].measure];
  const sides = seriesOf(readings[0].measure).map((s) => s.side);
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
        {label}: {counted(dates.length, 'date')} measured
      </summary>
      <Table
        scroll="Readings by date"
        rows={dates}
        columns={[
          ['Date', format.date],
          ...sides.map(
            (s): Column<string> => [`${s === 'none' ? label : s}, ${unit}`, (date) => cell(date, s)],
          ),
        ]}
      />
      <p class="hint">
        z: standard deviations from the reference median. It describes size against other children and is not
        a diagnosis.
      </p>
    </details>
  );
}
