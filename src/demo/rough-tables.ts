import { csvTables } from '../exchange/csv/write-caseload.js';
import type { Caseload } from '../records/caseload.js';
import { addDaysIso, type IsoDate } from '../records/dates.js';

/**
 * The clinic's tables as text by file name, as they come out of a clinic: the good rows, and at the end of
 * measurements.csv and devices.csv rows that no reader should take, one of each kind.
 */
export function roughTables(caseload: Caseload, today: IsoDate): Record<string, string> {
  const tables: Record<string, string> = { ...csvTables(caseload) };
  const [child] = caseload.children;
  const { id } = child;
  const date = addDaysIso(today, -40);
  const again = tables['measurements.csv'].split('\r\n')[1];
  tables['measurements.csv'] += lines([
    [`${id}-X1`, id, date, 'foot_length', 'left', '6.9', 'mm'], // inches in the millimetre column
    [`${id}-X2`, id, '2025-02-31', 'foot_length', 'left', '171', 'mm'],
    [`${id}-X3`, id, addDaysIso(today, 400), 'foot_length', 'left', '171', 'mm'],
    [`${id}-X4`, id, date, 'foot_length', '', '171', 'mm'],
    [`${id}-X5`, id, date, 'knee_height', 'right', '33', 'zoll'],
    [`${id}-X6`, id, addDaysIso(child.birthDate, -30), 'foot_length', 'right', '172', 'mm'],
    [`${id}-X7`, 'C9999', date, 'foot_length', 'right', '172', 'mm'],
    [`${id}-X8`, id, '04/05/2026', 'foot_length', 'right', '172', 'mm'],
  ]);
  if (again) tables['measurements.csv'] += `${again}\r\n`;
  tables['devices.csv'] += lines([[`${id}-X9`, id, 'solid-aof', 'left', date, '', '', '']]);
  return tables;
}

const lines = (rows: readonly (readonly string[])[]): string =>
  rows.map((row) => `${row.join(',')}\r\n`).join('');
