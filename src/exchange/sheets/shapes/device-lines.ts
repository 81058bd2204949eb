import { headingCandidates, likeliestMeaning } from '../../headings/heading-meaning.js';
import { isField } from '../../headings/meaning.js';
import { cellDevices } from '../cell-device.js';
import { daysMarked, saysStage } from '../cell-device-dates.js';
import { saysNothing, sideIn } from '../cell-words.js';
import type { GridRow, SheetTable } from '../grid.js';
import { isDitto } from './ditto.js';

/** 'EVO' alone, or 'Orthosis: AFO', 'voorziening: EVO': the word that heads devices elsewhere stands before the name. */
function deviceIn(cell: string): string | null {
  const [, before, name] = /^([^:]{2,30}):\s*(.+)$/.exec(cell) ?? [];
  if (name === undefined)
    return !isSize(cell) && cellDevices(cell).some((device) => device.family !== null) ? cell : null;
  const heads = headingCandidates(before).some(({ meaning }) => isField(meaning, 'device.family'));
  return heads || cellDevices(name).some((device) => device.family !== null) ? name : null;
}

/** Under a side beside a device: it has one there. */
const isTick = (cell: string): boolean => /^[x×✓✔]$/iu.test(cell.trim());
/** 'fitted 31/10/2023' in the remarks of a device's line. */
const saysDay = (cell: string): boolean => daysMarked(cell).days.length > 0 && saysStage(cell);

const isSize = (cell: string): boolean =>
  headingCandidates(cell).some(({ meaning }) => meaning.kind === 'reading');

/**
 * Devices among the lines of a list with a line a size, their days where the sizes stand: 'voorziening: EVO | gips 15-1 |
 * idem'. They get a column of their own; a word for 'the same' on the second side is both sides.
 */
export function withDeviceLines(table: SheetTable): SheetTable {
  const { headings, rows } = table;
  // Only beside sizes down the same column: 'Device: AFO' in remarks is a remark.
  const at = headings.findIndex(
    (heading, column) =>
      likeliestMeaning(heading)?.kind !== 'remark' &&
      rows.filter(({ cells }) => isSize(cells[column] ?? '')).length * 2 >= rows.length,
  );
  if (rows.length === 0 || at === -1 || rows.every(({ cells }) => deviceIn(cells[at] ?? '') === null))
    return table;
  const sides = headings.flatMap((heading, column) => {
    const side = sideIn(heading);
    return side === 'left' || side === 'right' ? [{ column, side }] : [];
  });
  const remarks = new Set(
    headings.flatMap((heading, column) => (likeliestMeaning(heading)?.kind === 'remark' ? [column] : [])),
  );
  const lined = ({ row, cells }: GridRow): GridRow => {
    const name = deviceIn(cells[at] ?? '');
    if (name === null) return { row, cells: [...headings.map((_, column) => cells[column] ?? ''), ''] };
    const said = sides.filter(
      ({ column }) => isTick(cells[column] ?? '') || !saysNothing(cells[column] ?? ''),
    );
    const side = said.length === 1 ? said[0].side : '';
    const beside = cells.filter((cell, column) => remarks.has(column) && saysDay(cell));
    const days = [...said.map(({ column }) => cells[column]), ...beside].filter(
      (cell) => !isDitto(cell) && !isTick(cell),
    );
    const both = said.length === 2 ? ' L + R' : '';
    const of = new Set([at, ...sides.map(({ column }) => column)]);
    for (const column of remarks) if (beside.includes(cells[column])) of.add(column);
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
