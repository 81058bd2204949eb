import { fieldHeaded, likeliestMeaning } from '../../headings/heading-meaning.js';
import { cellDevices } from '../cell-device.js';
import { stageSaid } from '../cell-device-dates.js';
import { openNameIn } from '../device-names.js';
import type { GridRow, SheetTable } from '../grid.js';

const STAGES = ['cast', 'fitted'] as const;

/**
 * Devices among the rows of a list with a row a size: 'CAST' or 'DELIVERY' stands where the measure does, nothing where its
 * size does, and the device in another column. They get columns of their own, dated by the row's day.
 */
export function withStageRows(table: SheetTable): SheetTable {
  const { headings, rows } = table;
  const find = (field: string) => headings.findIndex((heading) => fieldHeaded(heading) === field);
  const [what, value, date] = ['long.measure', 'long.value', 'visit.date'].map(find);
  if (what < 0 || value < 0 || date < 0) return table;
  const stageOf = ({ cells }: GridRow) =>
    (cells[value] ?? '') === '' && likeliestMeaning(cells[what] ?? '')?.kind !== 'reading'
      ? stageSaid(cells[what] ?? '')
      : null;
  const staged = rows.filter((row) => stageOf(row) !== null);
  // 'Helmet fitted' says both.
  const named = [...headings.keys()]
    .sort((a, b) => Number(a === what) - Number(b === what))
    .find(
      (at) =>
        staged.length > 0 && staged.filter(({ cells }) => nameIn(cells[at] ?? '')).length * 2 > staged.length,
    );
  if (named === undefined) return table;
  return {
    ...table,
    headings: [...headings, 'Device', ...STAGES.map((stage) => `Device ${stage}`)],
    rows: rows.map((row) => {
      const own = headings.map((_, at) => row.cells[at] ?? '');
      const stage = stageOf(row);
      const name = stage === null ? null : nameIn(own[named]);
      if (name === null) return { row: row.row, cells: [...own, '', '', ''] };
      const rest = named === what ? '' : own[named].slice(name.length).replace(/^[\s;.,]+/, '');
      const days = STAGES.map((of) => (of === stage ? own[date] : ''));
      return { row: row.row, cells: [...own.with(what, '').with(named, rest), name, ...days] };
    }),
  };
}

/** The device a cell begins with, up to what else it says; null where it names none. */
function nameIn(cell: string): string | null {
  const name = /^[^;]*/.exec(cell)?.[0].trim() ?? '';
  const known = cellDevices(name).some(({ family, likely }) => (family ?? likely) !== null);
  // 'AFO bajo' is asked about.
  return known || openNameIn(name) !== null ? name : null;
}
