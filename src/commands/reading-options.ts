import { readFileSync } from 'node:fs';
import { DoorpostError } from '../errors.js';
import type { ParsedCaseload, ParseOptions } from '../exchange/parse-caseload.js';
import { readCaseload } from '../exchange/read-caseload.js';
import { type RefusedRow, refusedRowText } from '../exchange/refused-row.js';
import type { IsoDate } from '../records/dates.js';
import type { FitRules } from '../rules/fit-rule.js';
import { loadRules } from '../rules/load-rules.js';
import { exitCodes } from './exit-codes.js';
import { keepAnswers, printQuestions, readAnswers } from './sheet-answers.js';
import { terminal, wrap } from './terminal.js';

/** Options of every command that reads a caseload. */
export interface ReadingOptions {
  readonly today?: IsoDate;
  readonly dateFormat?: 'dmy' | 'mdy';
  readonly unit?: 'mm' | 'cm' | 'inch';
  /** A file of the clinic's own fit rules. */
  readonly rules?: string;
  /** A file of the clinic's answers to questions about its sheets. */
  readonly reading?: string;
  /** Take what is probable. */
  readonly yes?: boolean;
  readonly json?: boolean;
}

const REFUSED_SHOWN = 20;

/** Today's date where this computer stands: the only clock of the command line. */
export function todayOf(options: { readonly today?: IsoDate }): IsoDate {
  if (options.today !== undefined) return options.today;
  const now = new Date();
  const two = (n: number) => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

export function parseOptions(options: ReadingOptions): ParseOptions {
  return {
    today: todayOf(options),
    dateOrder: options.dateFormat ?? 'refuse',
    lengthUnit: options.unit ?? null,
    rules: readRules(options.rules),
    answers: readAnswers(options.reading),
    takeProbable: options.yes ?? false,
  };
}

export async function readPaths(paths: readonly string[], options: ReadingOptions): Promise<ParsedCaseload> {
  terminal.progress('Reading ...');
  const parsed = await readCaseload(paths, parseOptions(options));
  terminal.progress('');
  if (options.reading !== undefined) keepAnswers(options.reading, parsed);
  return parsed;
}

/** '12 children, 80 measurements, 14 devices'. */
export function countsText(counts: Readonly<Record<string, { readonly length: number }>>): string {
  const parts = Object.entries(counts).filter(([, rows]) => rows.length > 0);
  return (
    parts.map(([table, rows]) => `${rows.length} ${rows.length === 1 ? ONE[table] : table}`).join(', ') ||
    'nothing'
  );
}

const ONE: Readonly<Record<string, string>> = {
  children: 'child',
  measurements: 'measurement',
  markers: 'maturity marker',
  devices: 'device',
  events: 'event',
  jobs: 'workshop job',
  skinChecks: 'skin check',
};

/**
 * What a command found, as a program reads it or as a person does, and what of its input was refused; gives the exit code.
 * Beside `files` written, refusals go to the error side.
 */
export function tell(
  parsed: ParsedCaseload,
  { json }: Pick<ReadingOptions, 'json'>,
  facts: object,
  text: readonly string[],
  files = false,
): number {
  const { refused, notices } = parsed;
  if (json) terminal.out(JSON.stringify({ ...facts, refused, notices }, null, 2));
  else {
    for (const part of text) terminal.out(part);
    printRefused(parsed, files ? terminal.err : terminal.out);
  }
  return refused.length > 0 ? exitCodes.rowsRefused : exitCodes.done;
}

/** Prints what was refused and remarked; refusals that are alike are shown once with their number. */
export function printRefused(
  { refused, notices, questions }: Pick<ParsedCaseload, 'refused' | 'notices' | 'questions'>,
  print: (text: string) => void,
): void {
  if (refused.length > 0) {
    const [rows, took] =
      refused.length === 1 ? ['1 entry was', 'it takes'] : [`${refused.length} entries were`, 'they take'];
    print(`\n${rows} refused; ${took} no part in what is above:`);
    const groups = groupAlike(refused);
    for (const group of groups.slice(0, REFUSED_SHOWN)) {
      const more = group.length > 1 ? ` (and ${group.length - 1} more like it)` : '';
      print(wrap(`- ${refusedRowText(group[0])}${more}`, 110, '  '));
    }
    if (groups.length > REFUSED_SHOWN)
      print(`  ... and ${groups.length - REFUSED_SHOWN} kinds more; --json lists all.`);
  }
  for (const notice of notices) print(wrap(`Note: ${notice}`, 110));
  printQuestions(questions, print);
}

function groupAlike(refused: readonly RefusedRow[]): RefusedRow[][] {
  const groups = new Map<string, RefusedRow[]>();
  for (const r of refused) {
    const key = [r.file, r.column, r.given === '' ? 'empty' : r.row, r.why].join('\u0000');
    groups.set(key, [...(groups.get(key) ?? []), r]);
  }
  return [...groups.values()];
}

/** The shipped fit rules, with a file of a clinic's own over them (as the service's GET /api/fit-rules/file writes it). */
export function readRules(file: string | undefined): FitRules {
  if (file === undefined) return loadRules();
  return loadRules(parsed(readFileSync(file, 'utf8'), file));
}

function parsed(text: string, file: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new DoorpostError('invalid-file', `the fit rules in ${file} are not JSON`, {
      file,
      accepted: '[{"id": "solid-afo", "dimensions": [{"measure": "foot_length", "allowanceMm": {...}}]}]',
    });
  }
}
