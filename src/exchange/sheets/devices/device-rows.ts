import { addDaysIso, type IsoDate } from '../../../records/dates.js';
import { contentId } from '../../csv/content-id.js';
import { foldText } from '../../headings/fold-words.js';
import { isField } from '../../headings/meaning.js';
import type { FieldId } from '../../headings/vocabulary.js';
import type { MadeRow } from '../canonical.js';
import { cellDevices, isMended, sameDevice } from '../cell-device.js';
import { stageSaid } from '../cell-device-dates.js';
import { wordIn } from '../cell-words.js';
import { type Column, cellOf } from '../column.js';
import { isGeneric } from '../device-names.js';
import type { GridRow } from '../grid.js';
import { isOfDevices } from '../left-over.js';
import { fieldCell, fieldColumns } from '../sheet-rows.js';
import type { TakenTable } from '../taken-table.js';
import { castsIn, DAYS_TO_FITTING, dateIn, dateSaid, reckonedCast } from './device-dates.js';
import { fill } from './device-fields.js';
import type { DeviceRegister, MadeDevice, Mention } from './device-register.js';
import { markDaysOf, type OneDevice, slot } from './device-sheet.js';
import { devicesByDay, devicesIn } from './named-devices.js';
import type { Found } from './said-devices.js';

const castBy = ({ meaning, heading }: Column, visit: IsoDate | null): IsoDate | null =>
  isField(meaning, 'device.family') && stageSaid(heading) === 'cast' ? visit : null;

/** 'REPAIR only - new joint', 'repariert, Klett neu'; not 'old ones repaired'. */
const saysMendedOnly = (text: string): boolean => isMended(foldText(text).split(' ').slice(0, 2).join(' '));

/** The devices of one table. */
export class DeviceRows {
  private readonly own = new Set<MadeDevice>();
  /** Days of cast of devices that wait for their family or side. */
  private readonly waiting: IsoDate[] = [];
  readonly events: MadeRow[] = [];
  constructor(
    private readonly taken: TakenTable,
    private readonly register: DeviceRegister,
  ) {}

  get rows(): MadeRow[] {
    return [...this.own];
  }

  /** The devices a row names, with their dates. Returns the first one made, for what else the row says. */
  add(mention: Mention): MadeRow | null {
    let first: MadeRow | null = null;
    const { left, desk, columns, heard } = this.taken;
    const { unanswered } = desk.asker;
    const named = devicesIn(this.taken, mention, this.register);
    if (named.length === 0) {
      this.askCastToo(mention);
      this.waiting.push(...castsIn(this.taken, mention.row));
    }
    const make = (found: Found) => {
      for (const side of found.sides) {
        const before = desk.asker.unanswered;
        const made = this.one(mention, found, side);
        if (made !== null) left.mark(mention.row, found.column);
        if (made !== null && !isOfDevices(found.column)) heard.add(cellOf(mention.row, found.column));
        else if (desk.asker.unanswered > before) markDaysOf(this.taken, mention.row, found.column);
        first = made ?? first;
      }
    };
    const mended = named.length > 0 ? this.mendedOnly(mention) : null;
    if (mended !== null) {
      for (const { column } of named) left.mark(mention.row, column);
      this.taken.tell(
        `row ${mention.row.row}, "${mended}" is work on a device that is worn: no device is made of it.`,
      );
      return null;
    }
    for (const found of named) make(found);
    // What waits for an answer may be what the days are of.
    if (unanswered === desk.asker.unanswered)
      for (const found of devicesByDay(this.taken, mention, this.register)) make(found);
    left.settle(mention.row, columns.filter(isOfDevices));
    return first;
  }

  /** 'Repair only' beside a device without a cast: the remark; else null. */
  private mendedOnly({ row }: Mention): string | null {
    if (castsIn(this.taken, row).length > 0) return null;
    const remarks = this.taken.columns.filter(({ meaning }) => /^(?:remark|keep)$/.test(meaning?.kind ?? ''));
    return remarks.map((column) => cellOf(row, column)).find(saysMendedOnly) ?? null;
  }

  /** A device that waits for its family or side will need a cast as well: both are asked in one go. */
  private askCastToo(mention: Mention): void {
    const { taken } = this;
    const { row, visit } = mention;
    const stages = ['device.cast_date', 'device.fitted_date'] as const;
    if (visit === null || stages.some((field) => fieldColumns(taken.columns, field).length > 0)) return;
    const { text, column } = fieldCell(taken.columns, row, 'device.family');
    if (
      column !== null &&
      cellDevices(text).some((d) => d.family !== null && d.cast === null && d.fitted === null)
    )
      reckonedCast(taken, row, column, null, mention);
  }

  // biome-ignore lint/complexity/noExcessiveCognitiveComplexity: a device's days, each from the surest place on, as the next needs the one before
  private one(mention: Mention, { device, family, column }: Found, side: string): MadeRow | null {
    const { taken, register } = this;
    const { row, person, visit } = mention;
    // Of several devices in a cell one with days of its own has those, and the columns' are the others'.
    const own = (device.cast ?? device.fitted) !== null && cellDevices(cellOf(row, column)).length > 1;
    const of = { family, side, column, word: foldText(device.said || device.word), after: device.after };
    const day = (field: FieldId) => (own ? null : dateIn(taken, row, field, of, mention));
    const cast = day('device.cast_date');
    const given = day('device.fitted_date');
    // A fitting that cannot be read is told, and the device with its cast stands.
    if (cast === 'unread' || (given === 'unread' && cast === null)) return null;
    const stage = device.stage ?? (visit === null ? null : this.stageByState(row, of));
    const done = (is: typeof stage) => (stage === is ? visit : null);
    const today = done('fitted');
    const fitted =
      (given === 'unread' ? null : given) ??
      dateSaid(taken, column, device.fitted) ??
      (today === null ? null : { date: today, column });
    // 'Cast of' over the devices: the day of the line is the cast's.
    const inName = dateSaid(taken, column, device.cast)?.date;
    const said = cast?.date ?? inName ?? castBy(column, visit) ?? done('cast');
    // A new one named at a visit is not the one cast before.
    const another = device.fresh && fitted === null && visit !== null;
    const last =
      said === null && !another
        ? register.lastBy(person.id, family, side, visit, fitted?.date ?? null)
        : null;
    if (device.state === 'retired' && said === null && fitted === null && last === null) {
      taken.left.mark(row, column);
      taken.tell(`"${device.said}" is no longer worn and has no date: it was left out.`);
      return null;
    }
    const castDate =
      said ??
      (last?.cells.cast_date as IsoDate | undefined) ??
      reckonedCast(taken, row, column, fitted?.date ?? null, mention);
    if (castDate === null) return null;
    const before = last ?? this.made(row, person.id, family, side, castDate, device.word);
    const made = this.orAnother(before, row, column, device);
    if (made === null) return null;
    if (last === null) {
      made.places.family ??= { column: column.heading, given: cellOf(row, column) };
      if (cast) made.places.cast_date ??= { column: cast.column.heading, given: cellOf(row, cast.column) };
    }
    if (fitted && !made.cells.fitted_date) {
      made.cells.fitted_date = fitted.date;
      made.places.fitted_date = { column: fitted.column.heading, given: cellOf(row, fitted.column) };
    }
    if (device.state !== null && !made.cells.fitted_date) made.cells.status = device.state;
    if (device.state === 'retired') made.cells.status = device.state;
    this.events.push(...fill(taken, made, mention, of));
    return made;
  }

  /** 'Abgegeben', 'Gips' under 'Status': done on the day of the line; 'awaiting fitting' is not. */
  private stageByState(row: GridRow, of: OneDevice): Found['device']['stage'] {
    const text = slot(this.taken, row, 'device.status', of)?.text ?? '';
    const state = wordIn(text, 'deviceStates');
    const stage = stageSaid(text);
    const fits = (state === 'worn' && stage === 'fitted') || (state === 'ordered' && stage === 'cast');
    return fits ? stage : null;
  }

  /** Where no column says that a device was fitted: those cast long enough ago, once the clinic agrees. */
  reckonFittings(): void {
    const { taken } = this;
    const { rules, today } = taken.desk;
    // A device that waits for its family will need it as well: both are asked in one go.
    for (const cast of this.waiting) if (addDaysIso(cast, DAYS_TO_FITTING) < today) this.takenAsFitted(cast);
    for (const { cells, ended } of this.own) {
      const cast = cells.cast_date as IsoDate;
      const fitted = addDaysIso(cast, rules.get(cells.family)?.turnaroundDays.value ?? DAYS_TO_FITTING);
      if (cells.fitted_date || cells.status || ended !== undefined || fitted >= today) continue;
      if (!this.takenAsFitted(cast)) continue;
      cells.fitted_date = fitted;
      taken.tell(
        'devices without a date of fitting are taken as fitted after the usual days of the workshop; say where one is not worn.',
      );
    }
  }

  private takenAsFitted(cast: IsoDate): boolean {
    const answer = this.taken.ask({
      id: 'fit:from-cast',
      asks: 'No column says when devices were fitted. Shall those cast longer ago than the workshop usually takes be taken as fitted after that time?',
      examples: [cast],
      suggested: 'yes',
    });
    return answer === 'yes';
  }

  /**
   * The device, or another of the same kind, side and day where the words have nothing in common and the clinic says that
   * they are two: an AFO and a night splint. Null while that is open: two devices are never made one unsaid.
   */
  private orAnother(
    device: MadeDevice,
    row: GridRow,
    column: Column,
    { word, said, after }: Found['device'],
  ): MadeDevice | null {
    // A heading's own device goes by its family: 'Helmet' over 'fitted 26/11/24'.
    const named = isGeneric(word) || word.startsWith(foldText(device.cells.family));
    if (named || device.word === word || (!after && sameDevice(device.word, word))) return device;
    const answer = this.taken.ask({
      id: `same:${[device.word, word].sort().join(':')}`,
      asks: `"${device.word}" and "${said || word}" are of the same kind, side and day. Are they one device?`,
      examples: [cellOf(row, column)],
      suggested: null,
      at: [row, column],
    });
    if (answer === 'yes') return device;
    const { child_id: child, family, side, cast_date: cast } = device.cells;
    return answer === 'two' ? this.made(row, child, family, side, cast as IsoDate, word, word) : null;
  }

  private made(
    row: GridRow,
    child: string,
    family: string,
    side: string,
    castDate: IsoDate,
    word: string,
    ...apart: readonly string[]
  ): MadeDevice {
    const own = cellOf(row, fieldColumns(this.taken.columns, 'device.id')[0]).slice(0, 80);
    const key = `${child}/${family}/${side}/${castDate}/${own}/${apart}`;
    const known = this.register.get(key);
    if (known) return known;
    const id = this.register.idOf(own, side) || contentId('d', child, family, side, castDate, ...apart);
    const device: MadeDevice = {
      id,
      word,
      row: row.row,
      cells: { id, child_id: child, family, side, cast_date: castDate },
      places: {},
    };
    this.register.put(key, device);
    this.own.add(device);
    return device;
  }
}
