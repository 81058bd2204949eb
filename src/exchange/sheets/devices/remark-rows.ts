import { readNote } from '../../../forecast/flags/notes/read-note.js';
import type { IsoDate } from '../../../records/dates.js';
import { LONGEST_NOTE } from '../../../records/records.js';
import { contentId } from '../../csv/content-id.js';
import type { MadeRow } from '../canonical.js';
import { type Column, cellOf } from '../column.js';
import type { GridRow } from '../grid.js';
import type { Person } from '../people.js';
import type { TakenTable } from '../taken-table.js';
import type { DeviceRegister, MadeDevice } from './device-register.js';

/** What a row of a sheet says beside its figures, of a child on a day. */
export interface Remark {
  readonly row: number;
  readonly person: Person;
  readonly date: IsoDate | null;
  readonly column: Column;
  readonly text: string;
}

/** Remarks of a row: every cell under a heading of remarks or of the skin, and any other kept words that say a finding. */
export function remarksIn(
  { columns }: TakenTable,
  row: GridRow,
  person: Person,
  dateFor: (column: Column) => IsoDate | null,
): Remark[] {
  return columns.flatMap((column) => {
    const said = cellOf(row, column);
    const kind = column.meaning?.kind ?? 'keep';
    if (!/\p{L}/u.test(said) || (kind !== 'remark' && kind !== 'keep')) return [];
    // Under 'Red marks' a mere 'L heel' says enough only together with the heading.
    const ofSkin = column.meaning?.kind === 'remark' && column.meaning.of === 'skin';
    const text = ofSkin ? `${column.heading}: ${said}` : said;
    if (kind === 'keep' && readNote(text).findings.length === 0) return [];
    return [{ row: row.row, person, date: dateFor(column), column, text: text.slice(0, LONGEST_NOTE) }];
  });
}

/** Tells of remarks that nothing will read: with a finding and no device worn that day. */
export function tellUnheard(taken: TakenTable, remarks: readonly Remark[], register: DeviceRegister): void {
  const unheard: string[] = [];
  for (const { person, date, text } of remarks) {
    if (
      (date === null || register.wornBy(person.id, date).length === 0) &&
      readNote(text).findings.length > 0
    )
      unheard.push(text);
  }
  if (unheard.length > 0)
    taken.tell(
      `${unheard.length === 1 ? 'one remark on skin or fit goes' : `${unheard.length} remarks on skin or fit go`} ` +
        `with no device worn that day, so no list shows it: look at the child (such as "${unheard[0].slice(0, 60)}").`,
    );
}

/**
 * Remarks as notes on the devices the child wore that day, so that a mark on the skin is read wherever a clinic wrote it
 * down; of a remark that names one side, on that side's. The words stay beside the row as well. They are
 * made while they are read: a long list has a remark a line.
 */
export function* remarkEvents(remarks: readonly Remark[], register: DeviceRegister): Generator<MadeRow> {
  for (const remark of remarks) {
    const { person, date, text } = remark;
    if (date === null) continue;
    const worn = register.wornBy(person.id, date);
    if (worn.length === 0) continue;
    // Of one device there is no other side to tell apart.
    const sides = new Set(worn.length === 1 ? [] : readNote(text).findings.map(({ side }) => side));
    const [side] = sides;
    const meant =
      sides.size === 1 && side !== null ? worn.filter((d) => d.cells.side === side || !isSided(d)) : worn;
    for (const device of meant.length > 0 ? meant : worn) yield noteOn(device, remark, date);
  }
}

const isSided = (device: MadeDevice): boolean =>
  device.cells.side === 'left' || device.cells.side === 'right';

const noteOn = (device: MadeDevice, { row, column, text }: Remark, date: IsoDate): MadeRow => ({
  row,
  cells: {
    id: contentId('e', device.id, date, 'note', text),
    device_id: device.id,
    date,
    kind: 'verdict',
    note: text,
  },
  places: { note: { column: column.heading, given: text } },
});
