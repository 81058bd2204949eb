import { headingCandidates } from '../../headings/heading-meaning.js';
import { isField } from '../../headings/meaning.js';
import { cellDevices } from '../cell-device.js';
import { saysNothing, sideIn } from '../cell-words.js';
import type { GridRow, SheetTable } from '../grid.js';
import { isDitto } from './ditto.js';

/** 'Orthosis: AFO', 'voorziening: EVO': the word that heads devices elsewhere stands before the name here. */
function deviceIn(cell: string): string | null {
  const [, before, name] = /^([^:]{2,30}):\s*(.+)$/.exec(cell) ?? [];
  if (name === undefined) return null;
  const heads = headingCandidates(before).some(({ meaning }) => isField(meaning, 'device.family'));
  return heads || cellDevices(name).some((device) => device.family !== null) ? name : null;
}

/**
 * Devices among the lines of a list with a line a size, their days where the sizes stand: 'voorziening: EVO | gips 15-1 |
 * idem'. They get a column of their own; a word for 'the same' on the second side is both sides.
 */
export function withDeviceLines(table: SheetTable): SheetTable {
  const { headings, rows } = table;
  const at = headings.findIndex((_, column) =>
    rows.some(({ cells }) => deviceIn(cells[column] ?? '') !== null),
  );
  if (at === -1) return table;
  // Only beside sizes down the same column: 'Device: AFO' in remarks is a remark.
  const sizes = rows.filter(({ cells }) =>
    headingCandidates(cells[at] ?? '').some(({ meaning }) => meaning.kind === 'reading'),
  );
  if (sizes.length * 2 < rows.length) return table;
  const sides = headings.flatMap((heading, column) => {
    const side = sideIn(heading);
    return side === 'left' || side === 'right' ? [{ column, side }] : [];
  });
  const lined = ({ row, cells }: GridRow): GridRow => {
    const name = deviceIn(cells[at] ?? '');
    if (name === null) return { row, cells: [...headings.map((_, column) => cells[column] ?? ''), ''] };
    const said = sides.filter(({ column }) => !saysNothing(cells[column] ?? ''));
    const side = said.length === 1 ? said[0].side : '';
    const days = said.map(({ column }) => cells[column]).filter((cell) => !isDitto(cell));
    const both = said.length === 2 ? ' L + R' : '';
    const of = new Set([at, ...sides.map(({ column }) => column)]);
    return {
      row,
      cells: [
        ...headings.map((_, column) => (of.has(column) ? '' : (cells[column] ?? ''))),
        `${name} ${side}${both} ${[...new Set(days)].join(', ')}`.replace(/\s+/g, ' ').trim(),
      ],
    };
  };
  return { ...table, headings: [...headings, 'Device'], rows: rows.map(lined) };
}
