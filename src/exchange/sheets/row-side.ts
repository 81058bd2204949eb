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

/** The side of a size whose heading says none: the row's side column, else asked once a column. */
export function sideOfRow(
  taken: TakenTable,
  row: GridRow,
  measure: MeasureId,
  column: Column,
  cell: string,
  isPair: boolean,
): ColumnSide | null {
  const beside = isPair ? null : sideBeside(taken, row);
  if (beside !== null) return beside;
  const worn =
    isPair || measure === 'head_diagonal' || isOneOfTwo(taken, column) ? null : sideOfDevices(taken, row);
  if (worn !== null) return worn;
  const said = fieldColumns(taken.columns, 'side')[0];
  if (!isPair && said !== undefined && said.cells * 2 >= taken.table.rows.length) {
    taken.refuse(
      row,
      said,
      `does not say which side the ${measures[measure].label.toLowerCase()} is of`,
      'left or right',
    );
    return null;
  }
  return askSide(taken, row, measure, column, cell, isPair);
}

function askSide(
  taken: TakenTable,
  row: GridRow,
  measure: MeasureId,
  column: Column,
  cell: string,
  isPair: boolean,
): ColumnSide | null {
  const first = measure === 'head_diagonal' ? firstDiagonal(taken, column) : null;
  if (first !== null) {
    const other = askSide(taken, row, measure, first, cell, isPair);
    if (other === null) taken.left.mark(row, column);
    return other === 'left' || other === 'right' ? opposite[other] : null;
  }
  const name = column.heading || `column ${column.index + 1}`;
  const size = measures[measure].label.toLowerCase();
  const single =
    measure === 'head_diagonal'
      ? `"${name}" is one of the two diagonals of a head. From which side of the forehead does it run?`
      : `"${name}" (${size}) says no side. Which side is it?`;
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

/** What the row's column of sides says. */
export function sideBeside(taken: TakenTable, row: GridRow): 'left' | 'right' | 'both' | null {
  for (const column of fieldColumns(taken.columns, 'side')) {
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
