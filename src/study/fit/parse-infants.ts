import { DoorpostError } from '../../errors.js';
import { DAYS_A_YEAR } from '../../records/dates.js';
import { groupBy } from '../../statistics/group-by.js';
import type { Cells } from '../backtest/parse-records.js';
import type { InfantRecord } from './infant-cases.js';

const COLUMNS = {
  id: ['id'],
  sex: ['sex', 'ma1fe0'],
  age: ['age_years', 'age', 'agedays'],
  length: ['length_cm', 'height', 'hgt'],
};

/** Infants followed: id, sex (words, or ma1fe0), age in years or `agedays`, length in cm. */
export function parseInfants({ file, ...table }: Cells): InfantRecord[] {
  const headings = table.headings.map((h) => h.trim().toLowerCase());
  const column = Object.fromEntries(
    Object.entries(COLUMNS).map(([what, names]) => {
      const at = headings.findIndex((h) => names.includes(h));
      if (at < 0)
        throw new DoorpostError('invalid-file', `${file} has no column for ${what}`, {
          file,
          row: 1,
          field: what,
          accepted: names.join(' or '),
        });
      return [what, at];
    }),
  );
  const inDays = headings[column.age] === 'agedays';
  const rows = [...table.rows].flatMap(({ row, cells }) => {
    if ((cells[column.length] ?? '').trim() === '') return [];
    const ageYears = Number(cells[column.age]) / (inDays ? DAYS_A_YEAR : 1);
    const lengthMm = Number(cells[column.length]) * 10;
    if (!(ageYears >= 0 && ageYears < 25) || !(lengthMm > 250 && lengthMm < 2200))
      throw new DoorpostError('invalid-value', `${file} row ${row} has no plausible age and length`, {
        file,
        row,
        given: `${cells[column.age]}, ${cells[column.length]}`,
        accepted: 'age 0 to 25 years, length 25 to 220 cm',
      });
    const sex = ['male', '1', 'm'].includes(cells[column.sex].trim().toLowerCase()) ? 'male' : 'female';
    return [{ id: cells[column.id], sex: sex as 'male' | 'female', ageYears, lengthMm }];
  });
  return [...groupBy(rows, (r) => r.id).values()].map((visits) => ({
    cohort: file,
    sex: visits[0].sex,
    visits: visits.map(({ ageYears, lengthMm }) => ({ ageYears, lengthMm })),
  }));
}
