import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { DoorpostError } from '../errors.js';
import { fitSurveyReference } from '../reference/fit-survey-reference.js';
import { readSurveyRecords } from '../reference/survey-records.js';
import { writeReferenceTable } from '../reference/write-reference-table.js';
import { type Terminal, terminal } from './terminal.js';

const shipped = fileURLToPath(new URL('../../reference-data/us-children-1977/', import.meta.url));

/**
 * `doorpost fit references`: fits L, M and S to a survey's records and
 * writes table.csv into a folder, by default the one the working reference is read from.
 */
export async function fitReferences(
  opts: { records: string; out?: string },
  io: Terminal = terminal,
): Promise<void> {
  const path = opts.records;
  if (!existsSync(path)) throw new DoorpostError('invalid-file', `there is no file ${path}`, { file: path });
  const records = readSurveyRecords(path);
  const rows = fitSurveyReference(records, ({ measure, sex, records: n, fit }) => {
    const { l, m, s } = fit.effectiveDegrees;
    const degrees = [l, m, s].map((v) => v.toFixed(1)).join(', ');
    io.err(`${measure}, ${sex}: ${n} records, effective degrees of freedom of L, M, S ${degrees}`);
  });
  const folder = opts.out ?? shipped;
  mkdirSync(folder, { recursive: true });
  writeReferenceTable(join(folder, 'table.csv'), rows);
  io.out(join(folder, 'table.csv'));
}
