import { measures } from '../../records/measure.js';
import type { LimitChangeRow, Page } from '../../store/contract.js';
import { Empty } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { Pager, Table } from '../parts/table.js';
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
        <Table
          class="stack"
          rows={history.items}
          columns={[
            ['When', (row) => format.day(row.at)],
            [
              'Limit',
              (row) => `${measures[row.measure].label}, ${figureWords[row.figure].label.toLowerCase()}`,
            ],
            [
              'From, to',
              (row) =>
                `${format.stated(row.beforeMm)} to ${row.mm === null ? 'the shipped figure' : `${format.stated(row.mm)} mm`}`,
            ],
            ['Reason', (row) => row.reason],
            ['Who', (row) => row.by],
          ]}
        />
      )}
      {history.nextCursor && (
        <Pager>
          <a rel="next" href={`${here}?${new URLSearchParams({ cursor: history.nextCursor })}`}>
            Older changes
          </a>
        </Pager>
      )}
    </section>
  );
}
