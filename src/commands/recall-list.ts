import { writeFile } from 'node:fs/promises';
import { deviceLabels } from '../charts/device-label.js';
import { recallColumns, recallTable } from '../exchange/csv/recall-columns.js';
import { capital } from '../forecast/words.js';
import { actionIds, type RecallEntry, type RecallLevelling, type RecallList } from '../recall/contract.js';
import type { RecallSettingsInput } from '../recall/decide/recall-settings.js';
import { counted } from '../records/counted.js';
import type { Child } from '../records/records.js';
import { actionNames, alertNames } from '../words/action-names.js';
import { clinicianWhy } from '../words/clinician-reason.js';
import { type Assessed, assess } from './assess.js';
import { childWords } from './child-words.js';
import { type ReadingOptions, readPaths, readRules, tell, todayOf } from './reading-options.js';
import { terminal, textTable, wrap } from './terminal.js';

export interface RecallOptions extends ReadingOptions {
  readonly month?: string;
  readonly tolerance?: number;
  readonly slotsPerWeek: number;
  readonly out?: string;
}

/** `doorpost recall`: whom to call in the next five weeks or the month chosen, for what, by when, and a sentence to read out. */
export async function recallList(paths: readonly string[], options: RecallOptions): Promise<number> {
  const parsed = await readPaths(paths, options);
  const assessed = await assess(parsed.caseload, {
    today: todayOf(options),
    month: options.month,
    rules: readRules(options.rules),
    settings: acceptedSettings(options.tolerance),
    clinic: { clinicians: [{ id: 'clinic', slotsPerWeek: options.slotsPerWeek }], workshop: [] },
  });
  const { recall } = assessed;
  if (options.out) await writeFile(options.out, recallCsv(assessed));
  const code = tell(parsed, options, withoutCurves(recall), [recallText(assessed)]);
  if (options.out && !options.json) terminal.out(`\nWritten: ${options.out}`);
  return code;
}

export const acceptedSettings = (accepted: number | undefined): RecallSettingsInput =>
  accepted === undefined ? {} : { acceptedChance: accepted };

export function recallText({ records, recall }: Assessed): string {
  const children = new Map(records.map(({ child }) => [child.id, child]));
  const nameOf = childWords([...children.values()]);
  const span = recall.month ?? `${recall.today} to ${recall.until}`;
  const summary =
    `Recall list for ${span}, as of ${recall.today}: ${counted(recall.entries.length, 'visit')} wanted, ` +
    `${recall.entries.filter((e) => e.late).length} of them late; ${counted(recall.inProgress.length, 'device')} being replaced; ` +
    `${counted(recall.notDue.length, 'child', 'children')} with nothing due.`;
  return [
    summary,
    ...actionIds.map((action) =>
      section(
        capital(actionNames[action]),
        recall.entries.filter((e) => e.action === action),
        children,
        nameOf,
      ),
    ),
    inProgressText(recall, nameOf),
    levellingText(recall.levelling, nameOf),
  ]
    .filter((text) => text !== '')
    .join('\n\n');
}

type NameOf = ReturnType<typeof childWords>;

function section(
  title: string,
  entries: readonly RecallEntry[],
  children: ReadonlyMap<string, Child>,
  nameOf: NameOf,
): string {
  if (entries.length === 0) return '';
  const lines = entries.map((e) => {
    const by = e.dueBy ? `${e.late ? 'late since' : 'by'} ${e.dueBy}` : '';
    const week = e.plannedWeek ? `week of ${e.plannedWeek}` : '';
    const head = [nameOf(e.childId), by, week, deviceLabels(e.devices), marksOf(e, children.get(e.childId))];
    return [
      head.filter((t) => t !== '').join(' | '),
      wrap(clinicianWhy(e), 110, '    '),
      wrap(`Say: ${e.reason.text ?? ''}`, 110, '    '),
    ].join('\n');
  });
  return `${title} (${entries.length})\n${lines.join('\n')}`;
}

function inProgressText(recall: RecallList, nameOf: NameOf): string {
  const late = recall.inProgress.filter((r) => r.late);
  if (late.length === 0) return '';
  const rows = late.map((r) => [
    nameOf(r.childId),
    r.replacementDeviceId,
    r.expectedFitting ?? 'ask the workshop',
    r.riskUntilFitted === null ? 'not known' : `${Math.round(100 * r.riskUntilFitted)} %`,
  ]);
  const heads = ['child', 'device', 'expected', 'worn one outgrown first'];
  return `Replacements that may come late (${late.length})\n${textTable(heads, rows)}`;
}

/** Where the places do not suffice, who is late for it and what would help; nothing where they do. */
function levellingText(levelling: RecallLevelling | undefined, nameOf: NameOf): string {
  if (!levelling) return '';
  if (levelling.notLevelled) return levelling.notLevelled;
  const { weeks, harmed, relief } = levelling;
  const over = weeks.filter((w) => w.overtime > 0);
  return [
    ...over.map(
      (w) => `Week of ${w.week}: ${w.used} places needed, ${w.slots} there are, ${w.overtime} too few.`,
    ),
    levelling.visitsSaved > 0
      ? `Doing several things in one visit saves ${counted(levelling.visitsSaved, 'visit')} in the weeks planned.`
      : '',
    ...harmed.map((h) => `${h.childIds.map(nameOf).join(' and ')}: ${h.text}`),
    ...relief.map((r) => r.text),
  ].join('\n');
}

function marksOf(e: RecallEntry, child: Child | undefined): string {
  const marks = [
    ...e.alerts.map((a) => alertNames[a].toUpperCase()),
    e.siblingGroup ? `together with ${e.siblingGroup}` : '',
    child && child.language !== 'en' ? `language ${child.language}` : '',
  ];
  return marks.filter((mark) => mark !== '').join(', ');
}

/** The list in working order as a table for a scheduler's spreadsheet, with names and contacts, so to be kept like any health record. */
export function recallCsv({ records, recall }: Assessed): string {
  const children = new Map(records.map(({ child }) => [child.id, child]));
  const rows = recall.entries.map((e) => {
    const { name = '', contact = '', language = '' } = children.get(e.childId) ?? {};
    return recallColumns(e, { id: e.childId, name, contact, language });
  });
  return recallTable(rows);
}

/** Weekly curves fill pages and are in `doorpost forecast --json`. */
function withoutCurves(recall: RecallList): object {
  return JSON.parse(
    JSON.stringify(recall, (key, value) =>
      key === 'probabilityOutgrown' || key === 'dates' ? undefined : value,
    ),
  );
}
