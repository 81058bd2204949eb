import { fieldHeaded } from '../../headings/heading-meaning.js';
import { writtenDates } from '../../headings/written-date.js';
import { cellDevices } from '../cell-device.js';
import { sideIn } from '../cell-words.js';
import type { GridRow, SheetTable } from '../grid.js';

interface LabelledDay {
  readonly day: string;
  /** '(brace)' behind it. */
  readonly label: string;
}
const BETWEEN = /^\s*(?:[,;+&]|and|und|et|y|e|en)\s*$/i;
const LABEL = /^\s*\(([^()\d]*)\)/;

/** '24/10/23 and 05/11/24 (brace)': the days of a cell that holds nothing else; null for any other cell. */
function daysOnly(cell: string): LabelledDay[] | null {
  const days: LabelledDay[] = [];
  let from = 0;
  for (const match of writtenDates(cell)) {
    const before = cell.slice(from, match.index);
    if (days.length === 0 ? before.trim() !== '' : !BETWEEN.test(before)) return null;
    const [said = '', label = ''] = LABEL.exec(cell.slice(match.index + match[0].length)) ?? [];
    days.push({ day: match[0], label: label.trim() });
    from = match.index + match[0].length + said.length;
  }
  return cell.slice(from).trim() === '' ? days : null;
}

/** Where a table says what, by column; -1 for nowhere. */
interface Places {
  readonly fields: readonly string[];
  readonly family: number;
  readonly cast: number;
  readonly fitted: number;
}

/**
 * Several casts in one cell beside a device are as many devices, and the fittings beside them theirs in the same order: a
 * row each, the first with all that the row says, the others with the child and the device alone.
 */
export function withCastsApart(table: SheetTable): SheetTable {
  const fields: string[] = table.headings.map((heading) => fieldHeaded(heading));
  const [family, cast, fitted] = ['device.family', 'device.cast_date', 'device.fitted_date'].map((field) =>
    fields.indexOf(field),
  );
  if (family === -1 || cast === -1) return table;
  return { ...table, rows: table.rows.flatMap((row) => apart(row, { fields, family, cast, fitted })) };
}

function apart({ row, cells }: GridRow, { fields, family, cast, fitted }: Places): GridRow[] {
  const casts = daysOnly(cells[cast] ?? '') ?? [];
  const given = daysOnly(cells[fitted] ?? '');
  const device = cells[family] ?? '';
  if (casts.length < 2 || device === '' || given === null) return [{ row, cells }];
  if (!(given.length === 0 || given.length === casts.length) || isUnclear(casts, device))
    return [{ row, cells }];
  return casts.map(({ day, label }, n) => {
    const own = fields.map((field, at) => (n === 0 || field.startsWith('child.') ? (cells[at] ?? '') : ''));
    own[cast] = day;
    own[family] = label || device;
    if (fitted !== -1) own[fitted] = given[n]?.day ?? '';
    return { row, cells: own };
  });
}

/** Which of a cell's devices a later day is of, or of which side of one. */
function isUnclear(casts: readonly LabelledDay[], device: string): boolean {
  const several = cellDevices(device).length > 1;
  return casts.some(({ label }, n) => (label === '' ? several && n > 0 : sideIn(label) !== null));
}
