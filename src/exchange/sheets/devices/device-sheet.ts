import type { IsoDate } from '../../../records/dates.js';
import type { FitRules } from '../../../rules/fit-rule.js';
import type { FieldId } from '../../headings/vocabulary.js';
import type { RefusedRow } from '../../refused-row.js';
import { saysNothing } from '../cell-words.js';
import type { GridRow } from '../grid.js';
import type { Asker } from '../questions.js';
import { cellOf, fieldColumns, type TakenTable } from '../sheet-rows.js';
import type { Column } from '../take-columns.js';

/** What devices are read with: the table, the clinic's rules, and where to ask and tell. */
export interface DeviceSheet {
  readonly taken: TakenTable;
  readonly rules: FitRules;
  readonly asker: Asker;
  readonly refused: RefusedRow[];
  readonly notices: string[];
  readonly today: IsoDate;
}

/** The filled cell of a device's field that belongs to this family and side. */
export function slot(
  sheet: DeviceSheet,
  row: GridRow,
  field: FieldId,
  family: string,
  side: string,
): { text: string; column: Column } | null {
  const fitting = fieldColumns(sheet.taken.columns, field).filter(({ meaning }) => {
    if (meaning?.kind !== 'field') return false;
    const sideFits =
      meaning.side === null ||
      meaning.side === 'both' ||
      meaning.side === side ||
      side === 'both' ||
      side === 'none';
    return sideFits && (meaning.family === null || meaning.family.split('|').includes(family));
  });
  for (const column of fitting) {
    const text = cellOf(row, column);
    if (text !== '' && !saysNothing(text)) return { text, column };
  }
  return null;
}
