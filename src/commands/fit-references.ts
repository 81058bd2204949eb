import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { DoorpostError } from '../errors.js';
import { fitSurveyReference, type MeasureFit } from '../reference/fit-survey-reference.js';
import { readSurveyRecords } from '../reference/survey-records.js';
import { writeReferenceTable } from '../reference/write-reference-table.js';

const shippedTable = fileURLToPath(
  new URL('../../reference-data/us-children-1977/table.csv', import.meta.url),
);

/**
 * `doorpost fit references`: fits L, M and S to a survey's records and writes the table the reference reads.
 * `onFit` hears of each measure as it is done, for progress.
 */
export async function fitReferences(
  opts: { records: string; out?: string },
  onFit?: (done: MeasureFit) => void,
): Promise<{ records: number; rows: number; path: string }> {
  if (!existsSync(opts.records))
    throw new DoorpostError('invalid-file', `there is no file ${opts.records}`, { file: opts.records });
  const records = readSurveyRecords(opts.records);
  const rows = fitSurveyReference(records, onFit);
  const path = opts.out ?? shippedTable;
  writeReferenceTable(path, rows);
  return { records: records.length, rows: rows.length, path };
}
