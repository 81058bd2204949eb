import { foldText } from '../../headings/fold-words.js';
import type { FieldId } from '../../headings/vocabulary.js';
import { sameDevice } from '../cell-device.js';
import { saysNothing } from '../cell-words.js';
import { type Column, cellOf, ordinal } from '../column.js';
import { openNameIn } from '../device-names.js';
import type { GridRow } from '../grid.js';
import { fieldColumns } from '../sheet-rows.js';
import type { TakenTable } from '../taken-table.js';

/** A device of a row: its family, its side and the column that names it. */
export interface OneDevice {
  readonly family: string;
  /** The words that name it. */
  readonly word: string;
  readonly after?: boolean;
  readonly side: string;
  readonly column: Column;
}
interface Slot {
  readonly text: string;
  readonly column: Column;
}

/** The filled cell of a device's field that belongs to this family and side, and to this of a row's several devices. */
export function slot(taken: TakenTable, row: GridRow, field: FieldId, of: OneDevice): Slot | null {
  const { family, side, column: named } = of;
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
  const under = ownDays(taken, named);
  const own = fitting.filter((c) => under.size === 0 || under.has(c) || familyIn(c) === null);
  const nearest = own.some((c) => under.has(c)) ? own.filter((c) => under.has(c)) : own;
  for (const column of ofDevice(taken, nearest, named)) {
    const text = cellOf(row, column);
    if (text === '' || saysNothing(text)) continue;
    taken.left.mark(row, column);
    return { text, column };
  }
  return null;
}

const familyIn = ({ meaning }: Column): string | null => (meaning?.kind === 'field' ? meaning.family : null);

/** Where 'Harness on' stands beside 'Brace' and 'Brace fitted', the brace's days are those under its own word; empty where no others are. */
function ownDays({ columns }: TakenTable, named: Column): ReadonlySet<Column> {
  const known = daysUnder.get(named);
  if (known) return known;
  const days = columns.filter(
    ({ meaning }) => meaning?.kind === 'field' && /^device\.(?:cast|fitted|end)_date$/.test(meaning.field),
  );
  const own = days.filter(({ heading }) => sameDevice(foldText(named.heading), foldText(heading)));
  const found = new Set(days.length > own.length ? own : []);
  daysUnder.set(named, found);
  return found;
}
const daysUnder = new WeakMap<Column, ReadonlySet<Column>>();

/** Of columns for several devices in a row ('Device 2', 'Cast 2') those with this device's number. */
export function ofDevice(taken: TakenTable, fields: readonly Column[], named: Column): readonly Column[] {
  const { headings } = taken.table;
  const devices = fieldColumns(taken.columns, 'device.family');
  if (devices.length < 2 || fields.length < 2) return fields;
  const which = ordinal(headings, named.index);
  const own = fields.filter((column) => ordinal(headings, column.index) === which);
  return own.length > 0 ? own : fields;
}

/** The days, end and verdict of a device that waits for an answer are no loss of their own. */
export function markDaysOf(taken: TakenTable, row: GridRow, named: Column): void {
  const fields = fieldsOfDevice.flatMap((field) =>
    ofDevice(taken, fieldColumns(taken.columns, field), named),
  );
  for (const column of fields) taken.left.mark(row, column);
}
const fieldsOfDevice = [
  'device.cast_date',
  'device.fitted_date',
  'device.end_date',
  'device.end_reason',
  'device.verdict',
] as const;
