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
  const name = column.heading || `column ${column.index + 1}`;
  const said = fieldColumns(taken.columns, 'side')[0];
  const size = measures[measure].label.toLowerCase();
  if (!isPair && said !== undefined && said.cells * 2 >= taken.table.rows.length) {
    taken.refuse(row, said, `does not say which side the ${size} is of`, 'left or right');
    return null;
  }
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
