import { familyLabel } from '../../charts/device-label.js';
import { Empty } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { type Column, Facts, Table } from '../parts/table.js';
import type { OverviewCounts } from './overview-counts.js';

const sum = (counts: readonly number[]): number => counts.reduce((a, b) => a + b, 0);

/** Casts a month and a year ahead, by family, and why devices ended in the year behind. */
export function MonthsAhead({ ahead, year, ended, eligibleAfterMonths }: OverviewCounts) {
  const { format } = usePage();
  const funded = ahead.families.some((f) => eligibleAfterMonths[f.family]);
  const all: (typeof ahead.families)[number] = {
    family: '',
    inUse: sum(ahead.families.map((f) => f.inUse)),
    casts: ahead.months.map((_, i) => sum(ahead.families.map((f) => f.casts[i]))),
  };
  return (
    <>
      <h3>Casts by month, the next twelve</h3>
      <p class="hint">
        From the middle date of every device's forecast, and then its successors at the usual life of that
        age, or as soon again where growth ends this one sooner; none before the funder pays. Late ones stand
        in this month. Only for what is in use today: first casts, of children still to come and for new
        needs, are added to it (in the last twelve months there were {format.number(year.firstCasts)}), and
        what replaces those in the same year. A clinic that casts some weeks ahead of the middle date casts
        more.
      </p>
      <Table
        empty="No device in use that will be followed by another."
        class={funded ? 'months funded' : 'months'}
        scroll="Casts by month"
        rows={[...ahead.families, all]}
        columns={[
          ['Family', (f) => (f.family ? familyLabel(f.family) : 'All')],
          ['In use', (f) => f.inUse, 'number'],
          funded && [
            'Paid again after',
            ({ family }) =>
              family && (eligibleAfterMonths[family] ? `${eligibleAfterMonths[family]} months` : 'any day'),
            'number',
          ],
          ...ahead.months.map(
            (m, i): Column<typeof all> => [format.month(`${m}-01`), (f) => f.casts[i] || '–', 'number'],
          ),
          ['A year', (f) => <strong>{sum(f.casts)}</strong>, 'number'],
        ]}
      />
      <h3>Why devices ended in the last twelve months</h3>
      {ended.length === 0 ? <Empty>No device ended.</Empty> : <Facts of={ended} />}
    </>
  );
}
