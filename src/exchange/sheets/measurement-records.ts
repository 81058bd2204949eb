import { decimalAgeYears } from '../../records/age.js';
import { readingFaults } from '../../records/check/reading-faults.js';
import { CANNOT_BE } from '../../records/check/refuse.js';
import { measures, type Side, technicalErrorAt } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';
import { isLengthUnit, toBaseUnit, type Unit } from '../../records/units.js';
import { contentId, isContentId } from '../csv/content-id.js';
import { readNumber } from '../csv/read-number.js';
import { readSize } from '../csv/read-size.js';
import { ownMeanings } from '../headings/own-columns.js';
import type { FieldId } from '../headings/vocabulary.js';
import { type ChosenUnit, EACH, unitOfSize, type ValueColumn, type Valued } from './choose-units.js';
import type { RawReading } from './reading-rows.js';
import { fieldCell, fieldColumns } from './sheet-rows.js';
import type { TakenTable } from './taken-table.js';
import { canBe } from './usual-size.js';

/** How much less a doubtful reading counts: its technical error is doubled (common practice, no source). */
const DOUBT = 2;

const unitKey = (r: RawReading): string => `${r.column.index}/${r.measure}`;

/** Values that say no unit of their own, by column and measure: what units are chosen from. */
export function valueColumns(readings: readonly RawReading[]): ValueColumn[] {
  const byKey = new Map<string, { reading: RawReading; cells: number; values: Map<string, Valued> }>();
  for (const r of readings) {
    if (r.size.unit !== null || r.unitBeside !== null) continue;
    const key = unitKey(r);
    const entry = byKey.get(key) ?? { reading: r, cells: 0, values: new Map() };
    byKey.set(key, entry);
    entry.cells++;
    // The same size at about the same age is looked at once.
    const age = ageAt(r);
    const ageYears = age === null ? null : Math.round(age * 4) / 4;
    const same = `${r.size.value} ${ageYears}`;
    const value = entry.values.get(same);
    if (value) value.count++;
    else entry.values.set(same, { value: r.size.value, ageYears, count: 1 });
  }
  return [...byKey].map(([key, { reading, cells, values }]) => ({
    key,
    // 'Value' of a list with a row a reading says less than what was measured.
    heading:
      (reading.column.meaning?.kind === 'reading' && reading.column.heading) ||
      measures[reading.measure].label,
    measure: reading.measure,
    headingUnit: reading.column.meaning?.kind === 'reading' ? reading.column.meaning.unit : null,
    cells,
    values: [...values.values()],
  }));
}

/** The cell says another unit than its heading or the unit beside it. */
const saysOtherUnit = ({ size, unitBeside }: RawReading): boolean =>
  size.unit !== null && unitBeside !== null && size.unit !== unitBeside;

/** '44.0 cm' among millimetres: no child of that age has the size in any unit but the cell's own. */
function onlyInOwnUnit(r: RawReading): boolean {
  const can = (unit: Unit | null) =>
    unit !== null && canBe(r.measure, toBaseUnit(r.size.value, unit), ageAt(r));
  return can(r.size.unit) && !can(r.unitBeside);
}

/** Why the unit said in a cell or beside it cannot be, and what would be accepted. */
function unitClash(r: RawReading, strict: boolean): [why: string, accepted: string] | null {
  const { size, unitBeside, measure } = r;
  if (saysOtherUnit(r) && (strict || !onlyInOwnUnit(r)))
    return [`is said to be in ${size.unit} and in ${unitBeside}`, 'one unit'];
  const unit = size.unit ?? unitBeside;
  const inMm = measures[measure].unit === 'mm';
  return unit === null || isLengthUnit(unit) === inMm
    ? null
    : [`is given in ${unit}`, inMm ? 'mm, cm, m, inch or ft' : 'kg, g or lb'];
}

export interface SheetReadings {
  readonly file: string;
  readonly records: readonly Measurement[];
}
/** The readings of one table as records, and of each row of the sheet the first. */
export interface MadeReadings extends SheetReadings {
  readonly firstOfRow: ReadonlyMap<number, Measurement>;
}

/**
 * One record a side; the same reading of the same day a second time is the first again. Takes `readings` out of their list
 * as it goes: a long sheet's would not be held twice.
 */
export function measurementRecords(
  taken: TakenTable,
  readings: RawReading[],
  units: ReadonlyMap<string, ChosenUnit>,
): MadeReadings {
  const records: Measurement[] = [];
  const firstOfRow = new Map<number, Measurement>();
  const rowOfId = new Map<string, number>();
  const strange: string[] = [];
  const ownUnits: string[] = [];
  // Our own tables mean what they say.
  const strict = ownMeanings(taken.table.headings).size > 0;
  readings.reverse();
  for (let r = readings.pop(); r !== undefined; r = readings.pop()) {
    const { row, column, size, given } = r;
    const unit = unitWithoutClash(taken, r, units, strict);
    if (unit === null) continue;
    if (size.doubt) taken.doubt(row, column, given);
    for (const side of r.sides) {
      const record = recordOf(taken, r, side, unit);
      if (isRepeated(taken, rowOfId, r, record) || refusedFor(taken, r, record)) continue;
      records.push(record);
      strange.push(...ifStrange(r, record));
      ownUnits.push(...ifOwnUnit(r));
      if (!firstOfRow.has(row.row)) firstOfRow.set(row.row, record);
    }
  }
  tellStrange(taken, strange);
  if (ownUnits.length > 0)
    taken.tell(
      `where a cell says another unit than its heading or the unit beside it, the size is read in its own, in which alone a child can have it ` +
        `(${ownUnits.length}, such as ${ownUnits[0]}).`,
    );
  return { file: taken.file, records, firstOfRow };
}

/** The unit of a reading; null where none is known, or where two clash and the cell is refused. */
function unitWithoutClash(
  taken: TakenTable,
  r: RawReading,
  units: ReadonlyMap<string, ChosenUnit>,
  strict: boolean,
): Unit | null {
  const clash = unitClash(r, strict);
  if (clash === null) return unitOf(r, units.get(unitKey(r)) ?? null);
  taken.refuse(r.row, r.column, ...clash, r.given);
  return null;
}

/** Whether a record is there already; refused where the sheet gives two readings one id. */
function isRepeated(
  taken: TakenTable,
  rowOfId: Map<string, number>,
  { row }: RawReading,
  { id }: Measurement,
): boolean {
  const before = rowOfId.get(id);
  if (before === undefined) {
    rowOfId.set(id, row.row);
    return false;
  }
  if (!isContentId(id) && before !== row.row) {
    const [column = null] = fieldColumns(taken.columns, 'long.id');
    taken.refuse(row, column, `is already the id of row ${before}`, 'each reading once');
  }
  return true;
}

/** A size that a child of this age can hardly have is taken as written, and told. */
const ifStrange = (r: RawReading, { value }: Measurement): string[] =>
  canBe(r.measure, value, ageAt(r)) ? [] : [`row ${r.row.row}, ${r.column.heading} "${r.given}"`];

const ifOwnUnit = (r: RawReading): string[] =>
  saysOtherUnit(r) ? [`row ${r.row.row}, ${r.column.heading} "${r.given}"`] : [];

function tellStrange(taken: TakenTable, sizes: readonly string[]): void {
  if (sizes.length === 0) return;
  taken.tell(
    `${sizes.length === 1 ? 'one size is' : `${sizes.length} sizes are`} far from what children of that age have ` +
      `(such as ${sizes.slice(0, 3).join('; ')}); taken as written: look whether the pen slipped.`,
  );
}

const ageAt = ({ person, date }: RawReading): number | null =>
  person.birthDate ? decimalAgeYears(person.birthDate, date) : null;

/** The unit said in the cell or beside it, else the one its column is read in. */
const unitOf = (r: RawReading, chosen: ChosenUnit | null): Unit | null =>
  r.size.unit ?? r.unitBeside ?? (chosen === EACH ? unitOfSize(r.measure, r.size.value, ageAt(r)) : chosen);

function recordOf(taken: TakenTable, r: RawReading, side: Side, unit: Unit): Measurement {
  const { row, person, date, measure, size, given } = r;
  const text = (field: FieldId) => fieldCell(taken.columns, row, field).text.slice(0, 80);
  const value = toBaseUnit(Number(size.value.toFixed(6)), unit);
  const [method, observer] = [text('visit.method'), text('visit.observer')];
  const plain = unit === measures[measure].unit && !size.doubt;
  const written = /\p{L}|["″]/u.test(given) ? given : `${given} ${unit}`;
  return {
    id:
      (r.sides.length === 1 ? text('long.id') : '') ||
      contentId('m', person.id, measure, side, date, value, observer, method),
    childId: person.id,
    measure,
    side,
    date,
    value,
    method,
    observer,
    technicalError: size.doubt
      ? technicalErrorAt(measure, ageAt(r) ?? 5) * DOUBT
      : readNumber(text('long.technical_error')),
    entered: text('long.entered') || (plain ? '' : written.slice(0, 80)),
    extra: NO_EXTRA,
  };
}
/** Of nearly every reading; `keepOthers` gives the others one of their own. */
export const NO_EXTRA: Record<string, string> = Object.freeze({});

/** The one check of readings, in the words of the clinic's own sheet; true where it refused. */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: one check, its words turned into those of the sheet
function refusedFor(taken: TakenTable, r: RawReading, record: Measurement): boolean {
  const error = fieldCell(taken.columns, r.row, 'long.technical_error');
  const noNumber = error.text !== '' && record.technicalError === null;
  if (noNumber) taken.refuse(r.row, error.column, 'is not a number', 'a number');
  const birth = r.person.birthDate;
  const faults = noNumber || birth === null ? [] : [...readingFaults(record, birth, taken.desk.today)];
  for (const { field, given, why = CANNOT_BE, accepted } of faults) {
    const of = FIELD_OF[field];
    const column = of === undefined ? r.column : (fieldColumns(taken.columns, of)[0] ?? r.column);
    const size = readSize(String(record.value), record.measure, [measures[record.measure].unit, '', '']);
    if (field === 'value' && 'why' in size) taken.refuse(r.row, r.column, size.why, size.accepted, r.given);
    else taken.refuse(r.row, column, why, accepted, of === undefined ? r.given : given);
  }
  return noNumber || faults.length > 0;
}
const FIELD_OF: Readonly<Record<string, FieldId>> = {
  date: 'visit.date',
  technicalError: 'long.technical_error',
};
