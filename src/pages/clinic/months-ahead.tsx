import { familyLabel } from '../../charts/device-label.js';
import { Empty, ScrollBox } from '../parts/layout.js';
import type { PageContext } from '../parts/page-context.js';
import type { WorkloadAhead } from './workload-ahead.js';

const sum = (counts: readonly number[]): number => counts.reduce((a, b) => a + b, 0);

/** Casts a month and a year ahead, by family, and why devices ended in the year behind. */
export function MonthsAhead(props: {
  context: PageContext;
  ahead: WorkloadAhead;
  ended: readonly (readonly [string, number])[];
}) {
  const { ahead, ended } = props;
  const { format } = props.context;
  const cells = (counts: readonly number[]) => (
    <>
      {counts.map((n, i) => (
        <td key={ahead.months[i]} class="number">
          {n || '–'}
        </td>
      ))}
      <td class="number">
        <strong>{sum(counts)}</strong>
      </td>
    </>
  );
  return (
    <>
      <h3>Casts by month, the next twelve</h3>
      <p class="hint">
        From the middle date of every device's forecast, and then its successors at the usual life of that
        age. Late ones stand in this month.
      </p>
      {ahead.families.length === 0 ? (
        <Empty>No device in use that will be followed by another.</Empty>
      ) : (
        <ScrollBox label="Casts by month">
          <table>
            <thead>
              <tr>
                <th scope="col">Family</th>
                {ahead.months.map((m) => (
                  <th scope="col" key={m} class="number">
                    {format.month(`${m}-01`)}
                  </th>
                ))}
                <th scope="col" class="number">
                  A year
                </th>
              </tr>
            </thead>
            <tbody>
              {ahead.families.map((f) => (
                <tr key={f.family}>
                  <th scope="row">{familyLabel(f.family)}</th>
                  {cells(f.casts)}
                </tr>
              ))}
              <tr>
                <th scope="row">All</th>
                {cells(ahead.months.map((_, i) => sum(ahead.families.map((f) => f.casts[i]))))}
              </tr>
            </tbody>
          </table>
        </ScrollBox>
      )}
      <h3>Why devices ended in the last twelve months</h3>
      {ended.length === 0 ? (
        <Empty>No device ended.</Empty>
      ) : (
        <dl class="facts">
          {ended.map(([reason, n]) => (
            <>
              <dt>{reason}</dt>
              <dd>{n}</dd>
            </>
          ))}
        </dl>
      )}
    </>
  );
}
