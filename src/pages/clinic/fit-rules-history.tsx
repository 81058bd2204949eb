import { measures } from '../../records/measure.js';
import { limitKey } from '../../rules/clinic-limits.js';
import type { LimitChangeRow, Page } from '../../store/contract.js';
import { Columns } from '../parts/fields.js';
import { Empty } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { figureWords } from './fit-rules-words.js';

/** Who changed which limit of a family when and why, newest first. */
export function FitRulesHistory(props: { history: Page<LimitChangeRow>; here: string }) {
  const { history, here } = props;
  const { format } = usePage();
  return (
    <section>
      <h2>What was changed</h2>
      {history.items.length === 0 ? (
        <Empty>Nothing yet: every figure is as shipped.</Empty>
      ) : (
        <table class="stack">
          <Columns of={['When', 'Limit', 'From, to', 'Reason', 'Who']} />
          <tbody>
            {history.items.map((row) => (
              <tr key={`${row.version} ${limitKey(row)}`}>
                <td data-label="When">{format.date(row.at.slice(0, 10))}</td>
                <td data-label="Limit">
                  {measures[row.measure].label}, {figureWords[row.figure].label.toLowerCase()}
                </td>
                <td data-label="From, to">
                  {format.stated(row.beforeMm)} to{' '}
                  {row.mm === null ? 'the shipped figure' : `${format.stated(row.mm)} mm`}
                </td>
                <td data-label="Reason">{row.reason}</td>
                <td data-label="Who">{row.by}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {history.nextCursor && (
        <nav class="pager" aria-label="Pages">
          <a rel="next" href={`${here}?${new URLSearchParams({ cursor: history.nextCursor })}`}>
            Older changes
          </a>
        </nav>
      )}
    </section>
  );
}
