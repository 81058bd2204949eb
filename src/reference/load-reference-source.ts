import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';
import { DoorpostError } from '../errors.js';
import { measures } from '../records/measure.js';
import { groupBy } from '../statistics/group-by.js';
import { type References, referenceCurve, referenceKey } from './reference-curve.js';
import { type ReferenceRow, referenceColumns, referenceRow } from './reference-table.js';

const shipped = fileURLToPath(new URL('../../reference-data/', import.meta.url));

/** Read once, then kept: WHO's is asked for by three measures. */
const shippedRows = new Map<string, readonly ReferenceRow[]>();

/** Names of the folders that hold a table. */
export function referenceSources(folder = shipped): string[] {
  return readdirSync(folder)
    .filter((name) => existsSync(`${folder}/${name}/table.csv`))
    .sort();
}

/** One published or fitted table, as its source gives it. */
export function loadReferenceSource(name: string, folder = shipped): References {
  return referencesFrom(name, loadReferenceRows(name, folder));
}

/** Curves from a table's rows. */
export function referencesFrom(source: string, rows: readonly ReferenceRow[]): References {
  const groups = groupBy(rows, (r) => referenceKey(r.measure, r.sex));
  return { source, curves: new Map([...groups].map(([key, group]) => [key, referenceCurve(group, source)])) };
}

/**
 * The rows of one table. Refuses a table without source.md beside it: a figure nobody can trace must not
 * reach a child's chart.
 */
export function loadReferenceRows(name: string, folder = shipped): readonly ReferenceRow[] {
  const path = `${folder}/${name}`;
  const known = shippedRows.get(path);
  if (known) return known;
  if (!existsSync(`${path}/table.csv`))
    throw new DoorpostError('reference-missing', `there is no reference table named '${name}'`, {
      given: name,
      accepted: referenceSources(folder).join(', '),
    });
  if (!existsSync(`${path}/source.md`) || readFileSync(`${path}/source.md`, 'utf8').trim() === '')
    throw new DoorpostError(
      'reference-without-source',
      `the reference table '${name}' has no source.md beside it that says where its figures come from`,
      { file: `reference-data/${name}/source.md` },
    );
  const rows = readTable(`${path}/table.csv`, `reference-data/${name}/table.csv`);
  if (folder === shipped) shippedRows.set(path, rows);
  return rows;
}

function readTable(path: string, shownAs: string): ReferenceRow[] {
  const lines: string[][] = parse(readFileSync(path), { bom: true });
  const [header = [], ...body] = lines;
  if (header.join() !== referenceColumns.join())
    throw new DoorpostError('invalid-file', `${shownAs} does not have the columns of a reference table`, {
      file: shownAs,
      row: 1,
      given: header.join(),
      accepted: referenceColumns.join(),
    });
  return body.map((cells, i) => {
    const [measure, sex, age, l, mm, kg, s] = cells;
    const m = measures[measure as keyof typeof measures]?.unit === 'kg' ? kg : mm;
    const row = referenceRow.safeParse({ measure, sex, ageYears: +age, l: +l, m: m ? +m : null, s: +s });
    if (row.success) return row.data;
    const issue = row.error.issues[0];
    throw new DoorpostError('invalid-file', `${shownAs} row ${i + 2}: ${issue.message}`, {
      file: shownAs,
      row: i + 2,
      field: issue.path.join('.'),
      given: cells.join(),
    });
  });
}
