import { DoorpostError } from '../../errors.js';
import type { readTable } from '../../exchange/csv/read-table.js';
import { groupBy } from '../../statistics/group-by.js';
import type { GrowthRecord, Visit } from './growth-record.js';

export type Cells = Pick<ReturnType<typeof readTable>, 'file' | 'headings' | 'rows'>;

const sizes = { stature_cm: 'stature', leg_cm: 'leg_length', weight_kg: 'weight' } as const;

/** Sizes outside are refused as impossible, in the file's unit; an adult's leg fits. */
const accepted: Readonly<Record<string, readonly [number, number]>> = {
  stature_cm: [40, 220],
  leg_cm: [15, 120],
  weight_kg: [0.5, 250],
};

/** Followed children from a table; the first bad cell is refused with its row, column, value and what is accepted. */
export function parseRecords(table: Cells): GrowthRecord[] {
  const headings = table.headings.map((h) => h.trim().toLowerCase());
  const sizeColumns = Object.entries(sizes).filter(([column]) => headings.includes(column));
  for (const column of ['id', 'sex', 'age', 'stature_cm'])
    if (!headings.includes(column))
      throw new DoorpostError('invalid-file', `${table.file} has no column '${column}'`, {
        file: table.file,
        row: 1,
        field: column,
        given: table.headings.join(','),
        accepted: ['id', 'sex', 'age', ...Object.keys(sizes)].join(','),
      });
  const rows = [...table.rows].map(({ row, cells }) => {
    const cell = (column: string) => cells[headings.indexOf(column)]?.trim() ?? '';
    const refuse = (field: string, what: string): never => {
      const given = cell(field);
      throw new DoorpostError(
        'invalid-value',
        `${table.file} row ${row}, column '${field}': '${given}' is not accepted; ${what}`,
        { file: table.file, row, field, given, accepted: what },
      );
    };
    const numberIn = (field: string, [low, high]: readonly [number, number]) => {
      const text = cell(field);
      const value = Number(text);
      if (text === '' || !(value >= low && value <= high)) refuse(field, `a number from ${low} to ${high}`);
      return value;
    };
    const id = cell('id') || refuse('id', 'any text that tells one child from another');
    const sex = cell('sex').toLowerCase();
    if (sex !== 'male' && sex !== 'female') refuse('sex', "'male' or 'female'");
    const ageYears = numberIn('age', [0, 25]);
    const read = sizeColumns.flatMap(([column, measure]) =>
      cell(column) === ''
        ? []
        : [[measure, numberIn(column, accepted[column]) * (measure === 'weight' ? 1 : 10)] as const],
    );
    return { id, sex: sex as 'male' | 'female', row, visit: { ageYears, sizes: Object.fromEntries(read) } };
  });
  return [...groupBy(rows, (r) => r.id).values()].map((group) => {
    const other = group.find((r) => r.sex !== group[0].sex);
    if (other)
      throw new DoorpostError(
        'invalid-value',
        `${table.file} row ${other.row}, column 'sex': '${other.sex}' here, '${group[0].sex}' in row ${group[0].row} of the same child`,
        { file: table.file, row: other.row, field: 'sex', given: other.sex, accepted: 'one sex a child' },
      );
    return { id: group[0].id, sex: group[0].sex, visits: ascending(group.map((r) => r.visit)) };
  });
}

/** By age, two rows at one age averaged measure by measure. */
function ascending(visits: readonly Visit[]): Visit[] {
  return [...groupBy(visits, (v) => v.ageYears)]
    .sort(([a], [b]) => a - b)
    .map(([ageYears, same]) => {
      const sizes = groupBy(
        same.flatMap((v) => Object.entries(v.sizes)),
        ([measure]) => measure,
      );
      return {
        ageYears,
        sizes: Object.fromEntries(
          [...sizes].map(([measure, all]) => [
            measure,
            all.reduce((sum, [, size]) => sum + size, 0) / all.length,
          ]),
        ),
      };
    });
}
