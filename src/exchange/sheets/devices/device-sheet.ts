import type { FieldId } from '../../headings/vocabulary.js';
import { saysNothing } from '../cell-words.js';
import { type Column, cellOf, ordinal } from '../column.js';
import type { GridRow } from '../grid.js';
import { fieldColumns } from '../sheet-rows.js';
import { openNameIn } from '../spoken-device.js';
import type { TakenTable } from '../taken-table.js';

/** The filled cell of a device's field that belongs to this family and side, and to this of a row's several devices. */
export function slot(
  taken: TakenTable,
  row: GridRow,
  field: FieldId,
  family: string,
  side: string,
  named: Column,
): { text: string; column: Column } | null {
  // 'Current AFO' over 'Type', 'Cast' and 'Fitted': what the type says, SMO too, is what was cast and fitted.
  const over = openNameIn(named.heading);
  const fitting = fieldColumns(taken.columns, field).filter(({ meaning, heading }) => {
    if (meaning?.kind !== 'field') return false;
    const sideFits =
      meaning.side === null ||
      meaning.side === 'both' ||
      meaning.side === side ||
      side === 'both' ||
      side === 'none';
    return (
      sideFits &&
      (meaning.family === null ||
        (over !== null && openNameIn(heading) === over) ||
        meaning.family.split('|').includes(family))
    );
  });
  for (const column of ofDevice(taken, fitting, named)) {
    const text = cellOf(row, column);
    if (text === '' || saysNothing(text)) continue;
    taken.left.mark(row, column);
    return { text, column };
  }
  return null;
}

/** Of columns for several devices in a row ('Device 2', 'Cast 2') those with this device's number. */
export function ofDevice(taken: TakenTable, fields: readonly Column[], named: Column): readonly Column[] {
  const { headings } = taken.table;
  const devices = fieldColumns(taken.columns, 'device.family');
  if (devices.length < 2 || fields.length < 2) return fields;
  const which = ordinal(headings, named.index);
  const own = fields.filter((column) => ordinal(headings, column.index) === which);
  return own.length > 0 ? own : fields;
}
