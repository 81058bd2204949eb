import { readdir, readFile, stat } from 'node:fs/promises';
import { basename, extname, join } from 'node:path';
import { DoorpostError } from '../errors.js';
import { type ParsedCaseload, type ParseOptions, parseCaseload } from './parse-caseload.js';

const ENDINGS = ['.csv', '.tsv', '.txt', '.xlsx', '.json', '.ndjson'];

/** A caseload out of a folder (every table in it) or out of files. See `parseCaseload`. */
export async function readCaseload(paths: readonly string[], options: ParseOptions): Promise<ParsedCaseload> {
  const files = (await Promise.all(paths.map(filesAt))).flat();
  const named = await Promise.all(
    files.map(async (path) => ({ name: basename(path), bytes: await readFile(path) })),
  );
  const parsed = await parseCaseload(named, options);
  if (parsed.caseload.children.length === 0 && parsed.refused.length === 0 && parsed.questions.length === 0) {
    throw new DoorpostError('invalid-file', 'no children were found', {
      accepted:
        "children.csv with columns id, birth_date and sex ('doorpost columns' lists all), or FHIR Patients",
    });
  }
  return parsed;
}

async function filesAt(path: string): Promise<string[]> {
  const found = await stat(path).catch(() => {
    throw new DoorpostError('invalid-file', `there is no file or folder at ${path}`, {
      file: path,
      accepted: `a folder, or a file ending in ${ENDINGS.join(', ')}`,
    });
  });
  if (!found.isDirectory()) return [path];
  // In a folder only the tables by name: a README.txt or a chart's specification beside them is not read.
  const names = (await readdir(path)).filter((name) => ENDINGS.includes(extname(name).toLowerCase())).sort();
  const tables = names.filter((name) =>
    /children|measurements|devices|events|markers|jobs|skin|fhir|bundle/i.test(name),
  );
  return (tables.length > 0 ? tables : names).map((name) => join(path, name));
}
