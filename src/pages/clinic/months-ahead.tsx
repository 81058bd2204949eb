import { familyLabel } from '../../charts/device-label.js';
import { Empty, ScrollBox } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import type { WorkloadAhead } from './workload-ahead.js';

const sum = (counts: readonly number[]): number => counts.reduce((a, b) => a + b, 0);

/** Casts a month and a year ahead, by family, and why devices ended in the year behind. */
export function MonthsAhead(props: {
  ahead: WorkloadAhead;
  ended: readonly (readonly [string, number])[];
  eligibleAfterMonths: Readonly<Record<string, number>>;
}) {
  const { ahead, ended, eligibleAfterMonths } = props;
  const { format } = usePage();
  const funded = ahead.families.some((f) => eligibleAfterMonths[f.family]);
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
        age, none before the funder pays. Late ones stand in this month.
      </p>
      {ahead.families.length === 0 ? (
        <Empty>No device in use that will be followed by another.</Empty>
      ) : (
        <ScrollBox label="Casts by month">
          <table class="months">
            <thead>
              <tr>
                <th scope="col">Family</th>
                <th scope="col" class="number">
                  In use
                </th>
                {funded && (
                  <th scope="col" class="number">
                    Paid again after
                  </th>
                )}
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
                  <td class="number">{f.inUse}</td>
                  {funded && (
                    <td class="number">
                      {eligibleAfterMonths[f.family] ? `${eligibleAfterMonths[f.family]} months` : 'any day'}
                    </td>
                  )}
                  {cells(f.casts)}
                </tr>
              ))}
              <tr>
                <th scope="row">All</th>
                <td class="number">{sum(ahead.families.map((f) => f.inUse))}</td>
                {funded && <td />}
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
