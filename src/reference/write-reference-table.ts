import { writeFileSync } from 'node:fs';
import { stringify } from 'csv-stringify/sync';
import { measures } from '../records/measure.js';
import { type ReferenceRow, referenceColumns } from './reference-table.js';

/** Writes a table in the schema of reference-data: ages to 5 decimals, M to 0.001 mm or kg. */
export function writeReferenceTable(path: string, rows: readonly ReferenceRow[]): void {
  const text = (v: number, digits: number) => String(Number(v.toFixed(digits)));
  const lines = rows.map(({ measure, sex, ageYears, l, m, s }) => {
    const size = text(m, 3);
    const inKg = measures[measure].unit === 'kg';
    return [measure, sex, text(ageYears, 5), text(l, 4), inKg ? '' : size, inKg ? size : '', text(s, 5)];
  });
  writeFileSync(path, stringify([[...referenceColumns], ...lines]));
}
