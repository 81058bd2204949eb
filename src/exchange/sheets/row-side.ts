import { type MeasureId, measures } from '../../records/measure.js';
import { foldText } from '../headings/fold-words.js';
import type { ColumnSide } from '../headings/meaning.js';
import { choices } from './answer-choices.js';
import { cellDevices } from './cell-device.js';
import { saysNothing, sideIn } from './cell-words.js';
import { type Column, cellOf } from './column.js';
import type { GridRow } from './grid.js';
import { fieldColumns } from './sheet-rows.js';
import type { TakenTable } from './taken-table.js';

/** A size, or two of one cell, whose heading says no side. */
interface Unsided {
  readonly taken: TakenTable;
  readonly row: GridRow;
  readonly measure: MeasureId;
  readonly column: Column;
  readonly cell: string;
  readonly isPair: boolean;
}

/** The side of a size whose heading says none: the row's side column, else asked once a column. */
export function sideOfRow(of: Unsided): ColumnSide | null {
  const { taken, row, measure, column, isPair } = of;
  const beside = isPair ? null : sideBeside(taken, row);
  if (beside !== null) return beside;
  const worn =
    isPair || measure === 'head_diagonal' || isOneOfTwo(taken, column) ? null : sideOfDevices(taken, row);
  if (worn !== null) return worn;
  const said = fieldColumns(taken.columns, 'side')[0];
  if (!isPair && said !== undefined && said.cells * 2 >= taken.table.rows.length) {
    taken.refuse(row, said, `does not say which side the ${sizeName(measure)} is of`, 'left or right');
    return null;
  }
  return askSide(of);
}

function askSide(of: Unsided): ColumnSide | null {
  const { taken, row, measure, column, cell, isPair } = of;
  const first = measure === 'head_diagonal' ? firstDiagonal(taken, column) : null;
  if (first !== null) {
    const other = askSide({ ...of, column: first });
    if (other === null) taken.left.mark(row, column);
    return other === 'left' || other === 'right' ? opposite[other] : null;
  }
  const name = column.heading || `column ${column.index + 1}`;
  const single =
    measure === 'head_diagonal'
      ? `"${name}" is one of the two diagonals of a head. From which side of the forehead does it run?`
      : `"${name}" (${sizeName(measure)}) says no side. Which side is it?`;
  const answer = taken.ask({
    id: `side-of:${foldText(name)}${isPair ? ':two' : ''}`,
    asks: isPair ? `"${name}" holds two sizes a cell. Which side comes first?` : single,
    examples: [cell],
    suggested: null,
    at: [row, column],
    ...(measure === 'head_diagonal' && { choices: choices(['left', 'right', 'leave']) }),
  });
  return answer === null || answer === 'leave' ? null : (answer as ColumnSide);
}

const sizeName = (measure: MeasureId): string => measures[measure].label.toLowerCase();
const opposite = { left: 'right', right: 'left' } as const;
/** Of two diagonals one runs from the right and the other from the left: the one that is asked about instead of this. */
function firstDiagonal({ columns, desk, file }: TakenTable, column: Column): Column | null {
  const found = columns.filter(
    ({ meaning }) =>
      meaning?.kind === 'reading' && meaning.measure === 'head_diagonal' && meaning.side === 'row',
  );
  const known = desk.asker.known(`side-of:${foldText(column.heading)}`, file) !== null;
  return found.length === 2 && found[1] === column && !known ? found[0] : null;
}

/** What the row's column of sides says; both for a cell 'L + R'. */
export function sideBeside(
  { columns }: TakenTable,
  row: GridRow,
  of: readonly Column[] = fieldColumns(columns, 'side'),
): 'left' | 'right' | 'both' | null {
  for (const column of of) {
    const side = sideIn(cellOf(row, column));
    if (side !== null) return side;
  }
  return null;
}

/** 'Foot length' twice in a row: each is of one side, and no device says which. */
const isOneOfTwo = ({ table }: TakenTable, { heading }: Column): boolean =>
  heading !== '' && table.headings.filter((other) => foldText(other) === foldText(heading)).length > 1;

/** 'R AFO' and one foot length in a row: the length is of the side the device is of. */
function sideOfDevices(taken: TakenTable, row: GridRow): ColumnSide | null {
  const sides = fieldColumns(taken.columns, 'device.family').flatMap((c) => {
    const cell = cellOf(row, c);
    return saysNothing(cell)
      ? []
      : cellDevices(cell).map(({ side }) => side ?? (c.meaning?.kind === 'field' ? c.meaning.side : null));
  });
  return new Set(sides).size === 1 ? sides[0] : null;
}
