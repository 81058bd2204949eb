import { decimalAgeYears } from '../../records/age.js';
import { measures, technicalErrorAt } from '../../records/measure.js';
import { isLengthUnit, toBaseUnit } from '../../records/units.js';
import type { RefusedRow } from '../refused-row.js';
import type { MadeRow } from './canonical.js';
import { type ChosenUnit, EACH, unitOfSize, type ValueColumn } from './choose-units.js';
import type { RawReading } from './reading-rows.js';
import { fieldCell, refusal, type TakenTable } from './sheet-rows.js';

/** How much less a doubtful reading counts: its technical error is doubled (common practice, no source). */
const DOUBT = 2;

const unitKey = (r: RawReading): string => `${r.column.index}/${r.measure}`;

/** Values that say no unit of their own, by column and measure: what units are chosen from. */
export function valueColumns(taken: TakenTable, readings: readonly RawReading[]): ValueColumn[] {
  const byKey = new Map<
    string,
    { reading: RawReading; values: { value: number; ageYears: number | null }[] }
  >();
  for (const r of readings) {
    if (r.size.unit !== null || r.unitBeside !== null) continue;
    const entry = byKey.get(unitKey(r)) ?? { reading: r, values: [] };
    entry.values.push({
      value: r.size.value,
      ageYears: r.person.birthDate ? decimalAgeYears(r.person.birthDate, r.date) : null,
    });
    byKey.set(unitKey(r), entry);
  }
  return [...byKey].map(([key, { reading, values }]) => ({
    key,
    file: taken.table.file,
    heading: reading.column.heading || reading.measure,
    measure: reading.measure,
    headingUnit: reading.column.meaning?.kind === 'reading' ? reading.column.meaning.unit : null,
    values,
  }));
}

/** Why the unit said in a cell or beside it cannot be, and what would be accepted. */
function unitClash({ size, unitBeside, measure }: RawReading): [why: string, accepted: string] | null {
  if (size.unit !== null && unitBeside !== null && size.unit !== unitBeside)
    return [`is said to be in ${size.unit} and in ${unitBeside}`, 'one unit'];
  const unit = size.unit ?? unitBeside;
  const inMm = measures[measure].unit === 'mm';
  return unit === null || isLengthUnit(unit) === inMm
    ? null
    : [`is given in ${unit}`, inMm ? 'mm, cm, m, inch or ft' : 'kg, g or lb'];
}

/** Rows of the table of measurements, one a side. */
export function measurementRows(
  taken: TakenTable,
  readings: readonly RawReading[],
  units: ReadonlyMap<string, ChosenUnit>,
  refused: RefusedRow[],
  doubtful: RefusedRow[],
): MadeRow[] {
  const rows: MadeRow[] = [];
  const seen = new Set<string>();
  for (const r of readings) {
    const { row, person, date, column, measure, size, given } = r;
    const clash = unitClash(r);
    if (clash !== null) {
      refused.push(refusal(taken.table, row, column, ...clash, given));
      continue;
    }
    const ageYears = person.birthDate ? decimalAgeYears(person.birthDate, date) : null;
    const chosen = units.get(unitKey(r)) ?? null;
    const unit =
      size.unit ?? r.unitBeside ?? (chosen === EACH ? unitOfSize(measure, size.value, ageYears) : chosen);
    if (unit === null) continue;
    const base = measures[measure].unit;
    const value = toBaseUnit(Number(size.value.toFixed(6)), unit);
    const entered =
      unit === base && !size.doubt ? '' : /\p{L}|["″]/u.test(given) ? given : `${given} ${unit}`;
    if (size.doubt)
      doubtful.push(
        refusal(taken.table, row, column, 'was written with a doubt and is taken as less sure', '', given),
      );
    for (const side of r.sides) {
      const key = `${person.id}/${measure}/${side}/${date}/${value}`;
      if (seen.has(key)) continue;
      seen.add(key);
      rows.push({
        row: row.row,
        cells: {
          id: r.sides.length === 1 ? fieldCell(taken.columns, row, 'long.id').text : '',
          child_id: person.id,
          date,
          measure,
          side: side === 'none' ? '' : side,
          value: String(value),
          unit: base,
          method: fieldCell(taken.columns, row, 'visit.method').text,
          observer: fieldCell(taken.columns, row, 'visit.observer').text,
          technical_error: size.doubt
            ? String(technicalErrorAt(measure, ageYears ?? 5) * DOUBT)
            : fieldCell(taken.columns, row, 'long.technical_error').text,
          entered: (fieldCell(taken.columns, row, 'long.entered').text || entered).slice(0, 80),
        },
        places: { value: { column: column.heading || 'value', given } },
      });
    }
  }
  return rows;
}
