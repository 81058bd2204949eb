import { writeFile } from 'node:fs/promises';
import { stringify } from 'csv-stringify/sync';
import { deviceLabel } from '../charts/device-label.js';
import { safeCell } from '../exchange/csv/row-reader.js';
import type { RecallEntry, RecallLevelling, RecallList } from '../recall/contract.js';
import type { Child } from '../records/records.js';
import { type Assessed, assess } from './assess.js';
import { exitCodes } from './exit-codes.js';
import { levelAssessed } from './level-assessed.js';
import { readRules } from './read-rules.js';
import { printRefused, type ReadingOptions, readPaths, todayOf } from './reading-options.js';
import { terminal, textTable, wrap } from './terminal.js';

export interface RecallOptions extends ReadingOptions {
  readonly month?: string;
  readonly tolerance?: number;
  readonly slotsPerWeek: number;
  readonly out?: string;
  readonly seed?: number;
}

const ACTION_WORDS: Readonly<Record<RecallEntry['action'], string>> = {
  cast: 'cast',
  measure: 'measure',
  'review-wear': 'review wear',
  'urgent-contact': 'ring today',
  adjust: 'adjust',
};

/** `doorpost recall`: whom to call this month, for what, by when, and a sentence to read out. */
export async function recallList(paths: readonly string[], options: RecallOptions): Promise<number> {
  const parsed = await readPaths(paths, options);
  const settings = toleranceSettings(options.tolerance);
  const assessed = await levelAssessed(
    await assess(parsed.caseload, {
      today: todayOf(options),
      month: options.month,
      rules: readRules(options.rules),
      seed: options.seed,
      settings,
    }),
    options.slotsPerWeek,
    settings,
  );
  const { recall } = assessed;
  if (options.out) await writeFile(options.out, recallCsv(assessed));
  const code = parsed.refused.length > 0 ? exitCodes.rowsRefused : exitCodes.done;
  if (options.json) {
    terminal.out(
      JSON.stringify({ ...withoutCurves(recall), refused: parsed.refused, notices: parsed.notices }, null, 2),
    );
    return code;
  }
  terminal.out(recallText(assessed));
  printRefused(parsed, terminal.out);
  if (options.out) terminal.out(`\nWritten: ${options.out}`);
  return code;
}

export function toleranceSettings(tolerance: number | undefined) {
  return tolerance === undefined
    ? {}
    : { riskTolerance: tolerance, riskToleranceInsensate: Math.min(tolerance, 0.05) };
}

export function recallText({ records, recall }: Assessed): string {
  const children = new Map(records.map(({ child }) => [child.id, child]));
  const summary =
    `Recall list for ${recall.month}, as of ${recall.today}: ${recall.entries.length} to call, ` +
    `${recall.entries.filter((e) => e.overdue).length} of them overdue; ${recall.cannotForecast.length} to measure first; ` +
    `${recall.inProgress.length} devices being replaced; ${recall.open.length} more could fill free slots.`;
  return [
    summary,
    section('To call', recall.entries, children),
    section('Cannot be forecast: nobody may be forgotten here', recall.cannotForecast, children),
    inProgressText(recall),
    levellingText(recall.levelling),
  ]
    .filter((text) => text !== '')
    .join('\n\n');
}

function section(
  title: string,
  entries: readonly RecallEntry[],
  children: ReadonlyMap<string, Child>,
): string {
  if (entries.length === 0) return '';
  const lines = entries.map((e) => {
    const by = e.overdue
      ? `overdue${e.latestSafe ? ` since ${e.latestSafe}` : ''}`
      : e.latestSafe
        ? `by ${e.latestSafe}`
        : '';
    const week = e.plannedWeek ? `week of ${e.plannedWeek}` : '';
    const marks = marksOf(e, children.get(e.childId));
    const head = [e.childId, ACTION_WORDS[e.action], by, week, devicesOf(e), marks];
    return `${head.filter((t) => t !== '').join(' | ')}\n${wrap(e.reason, 110, '    ')}`;
  });
  return `${title} (${entries.length})\n${lines.join('\n')}`;
}

function inProgressText(recall: RecallList): string {
  const late = recall.inProgress.filter((r) => r.late);
  if (late.length === 0) return '';
  const rows = late.map((r) => [r.childId, r.replacementDeviceId, r.expectedFitting ?? '', r.reason]);
  return `Replacements that may come late (${late.length})\n${textTable(['child', 'device', 'expected', 'why'], rows)}`;
}

/** Where the places do not suffice, who is late for it and what would help; nothing where they do. */
function levellingText(levelling: RecallLevelling | undefined): string {
  if (!levelling) return '';
  const { weeks, harmed, relief } = levelling;
  const over = weeks.filter((w) => w.overtime > 0);
  return [
    ...over.map(
      (w) => `Week of ${w.week}: ${w.used} places needed, ${w.slots} there are, ${w.overtime} too few.`,
    ),
    levelling.visitsSaved > 0
      ? `Doing several things in one visit saves ${levelling.visitsSaved} visits in the weeks planned.`
      : '',
    ...harmed.map((h) => `${h.childIds.join(' and ')}: ${h.text}`),
    ...relief.map((r) => r.text),
  ].join('\n');
}

const devicesOf = (e: RecallEntry): string => e.devices.map((d) => deviceLabel(d)).join(' and ');

function marksOf(e: RecallEntry, child: Child | undefined): string {
  const marks = [
    e.insensateSkin ? 'skin cannot warn' : '',
    child?.latexAlert ? 'LATEX ALERT' : '',
    e.siblingGroup ? `together with ${e.siblingGroup}` : '',
    child && child.language !== 'en' ? `language ${child.language}` : '',
  ];
  return marks.filter((mark) => mark !== '').join(', ');
}

/** The list as a table for a scheduler's spreadsheet, with names and contacts, so to be kept like any health record. */
export function recallCsv({ records, recall }: Assessed): string {
  const children = new Map(records.map(({ child }) => [child.id, child]));
  const headings = [
    'child_id',
    'name',
    'contact',
    'language',
    'action',
    'overdue',
    'call_by',
    'worth_it_from',
    'week',
    'week_reason',
    'devices',
    'latex_alert',
    'skin_cannot_warn',
    'siblings',
    'last_seen',
    'list',
    'reason',
  ];
  const lists = {
    'to call': recall.entries,
    'cannot forecast': recall.cannotForecast,
    'could fill a slot': recall.open,
  };
  const rows = Object.entries(lists).flatMap(([list, entries]) =>
    entries.map((e) => {
      const child = children.get(e.childId);
      return [
        e.childId,
        child?.name ?? '',
        child?.contact ?? '',
        child?.language ?? '',
        ACTION_WORDS[e.action],
        e.overdue ? 'yes' : 'no',
        e.latestSafe ?? '',
        e.worthIt ?? '',
        e.plannedWeek ?? '',
        e.weekReason ?? '',
        devicesOf(e),
        child?.latexAlert ? 'yes' : 'no',
        e.insensateSkin ? 'yes' : 'no',
        e.siblingGroup ?? '',
        e.lastSeen ?? '',
        list,
        e.reason,
      ];
    }),
  );
  return stringify([headings, ...rows], {
    bom: true,
    record_delimiter: 'windows',
    cast: { string: safeCell },
  });
}

/** Weekly curves fill pages and are in `doorpost forecast --json`. */
function withoutCurves(recall: RecallList): object {
  return JSON.parse(
    JSON.stringify(recall, (key, value) =>
      key === 'probabilityOutgrown' || key === 'dates' ? undefined : value,
    ),
  );
}
