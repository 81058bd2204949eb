import { mkdir, rm, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { demoClinic, demoSlotsPerWeek } from '../demo/demo-clinic.js';
import { roughTables } from '../demo/rough-tables.js';
import { recallCalendar } from '../exchange/icalendar/recall-calendar.js';
import { clinicDays } from '../recall/level/clinic-week.js';
import type { ChildRecord } from '../records/caseload.js';
import type { IsoDate } from '../records/dates.js';
import { type Assessed, assess, settingsOf } from './assess.js';
import { startThreads, THREADS_FROM_EARLY } from './assess-in-parallel.js';
import { drawChild } from './draw-child.js';
import { forecastTable } from './forecast-text.js';
import { countsText, printRefused, readPaths, todayOf } from './reading-options.js';
import { recallCsv, recallText } from './recall-list.js';
import { terminal } from './terminal.js';

export interface DemoCommandOptions {
  readonly out: string;
  readonly children: number;
  readonly seed: number;
  readonly charts: number;
  readonly today?: IsoDate;
  readonly json?: boolean;
}

/**
 * `doorpost demo`, the whole job on an invented clinic: its tables are written, read back through the import like any
 * clinic's, forecast, planned and drawn. Its refused rows are part of the show, so the exit code is 0.
 */
export async function demo(options: DemoCommandOptions): Promise<void> {
  const began = process.hrtime.bigint();
  const today = todayOf(options);
  const folder = resolve(options.out);
  const tables = join(folder, 'tables');
  // They load while the clinic is invented and read, on a processor that is idle then.
  startThreads(settingsOf({ today }), options.children, undefined, THREADS_FROM_EARLY);
  step('Inventing the clinic');
  const { caseload } = demoClinic({ children: options.children, seed: options.seed, today });
  await mkdir(tables, { recursive: true });
  for (const [name, text] of Object.entries(roughTables(caseload, today)))
    await writeFile(join(tables, name), text);

  step('Reading its tables back');
  const parsed = await readPaths([tables], { today });
  const charts = join(folder, 'charts');
  await rm(charts, { recursive: true, force: true });
  let drawn: ChildRecord[] = [];
  const assessed = await assess(parsed.caseload, {
    today,
    meanwhile: async (unplanned) => {
      drawn = childrenToDraw(unplanned, options.charts);
      terminal.progress(`Planning the weeks, drawing ${drawn.length} children ...`);
      await Promise.all(drawn.map((record) => drawChild(record, unplanned, charts)));
      terminal.progress('');
    },
    clinic: {
      clinicians: [{ id: 'clinic', slotsPerWeek: demoSlotsPerWeek(options.children) }],
      workshop: [],
    },
  });
  const { recall } = assessed;
  const recallPath = join(folder, `recall-${today}.csv`);
  const calendarPath = join(folder, `recall-${today}.ics`);
  const forecastPath = join(folder, 'forecasts.txt');
  await writeFile(recallPath, recallCsv(assessed));
  await writeFile(
    calendarPath,
    recallCalendar(recall.entries, {
      today,
      now: new Date(`${today}T00:00:00Z`),
      uidKey: 'demo',
      clinic: clinicDays({}),
    }),
  );
  await writeFile(forecastPath, `${forecastTable(assessed)}\n\n${recallText(assessed)}\n`);

  const seconds = Number(process.hrtime.bigint() - began) / 1e9;
  const late = recall.entries.filter((e) => e.late).length;
  if (!options.json) printRefused({ refused: parsed.refused, notices: [], questions: [] }, terminal.out);
  say(
    options,
    { folder, tables, recall: recallPath, calendar: calendarPath, forecasts: forecastPath, charts, seconds },
    [
      `\nAn invented clinic on ${today}: ${countsText({ ...parsed.caseload })}; ${parsed.refused.length} bad entries, put there on purpose, were refused.`,
      `${recall.entries.length} visits wanted until ${recall.until}, ${late} of them late; ${recall.notDue.length} children with nothing due.`,
      '',
      `  Recall list   ${recallPath}`,
      `  Calendar      ${calendarPath}`,
      `  Forecasts     ${forecastPath}`,
      `  Charts        ${charts}   (${drawn.map((r) => r.child.id).join(', ')})`,
      `  Tables        ${tables}`,
      '',
      `Done in ${seconds.toFixed(0)} s. Next: npx doorpost forecast ${options.out}/tables --child ${drawn[0]?.child.id ?? ''} --today ${today}`,
    ].join('\n'),
  );
}

const step = (text: string): void => terminal.err(`${text} ...`);

function say(options: DemoCommandOptions, facts: object, text: string): void {
  terminal.out(options.json ? JSON.stringify(facts, null, 2) : text);
}

/** Children on the recall list, one for each kind of device before any kind comes twice. */
function childrenToDraw({ recall, records }: Assessed, count: number): ChildRecord[] {
  const order = [...recall.entries, ...recall.notDue];
  const seen = new Set<string>();
  const fresh = order.filter((e) => {
    const kinds = e.devices.map((d) => d.family).filter((family) => !seen.has(family));
    for (const family of kinds) seen.add(family);
    return kinds.length > 0;
  });
  const ids = [...new Set([...fresh, ...order].map((e) => e.childId))].slice(0, count);
  return ids.flatMap((id) => records.find((r) => r.child.id === id) ?? []);
}
