/**
 * The forecast engine against the version before its reworking, in one process: child by child in turn, so that both
 * meet the same machine, in CPU time and of a few repeats the quickest, so that what else runs on it counts for little.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { assessInParallel, startThreads } from '../../src/commands/assess-in-parallel.js';
import { demoClinic } from '../../src/demo/demo-clinic.js';
import { type ChildRecord, groupByChild } from '../../src/records/caseload.js';
import { note } from './measure.js';

/** The version that others are compared with, and the draws it needed for what 512 even ones give now. */
const BASELINE = '8289bb4';
const BASELINE_DRAWS = 1000;
const DRAWS = 512;
const REPEATS = 3;
const today = '2026-11-25';
const root = fileURLToPath(new URL('../../', import.meta.url));

const caseload = demoClinic({ children: 30, seed: 7, today }).caseload;

export async function benchEngine(): Promise<void> {
  const baseline = checkOut();
  // Dimensions that came later would stop the baseline.
  const { measures } = await import(moduleOf(baseline, 'records/measure'));
  const records = groupByChild({
    ...caseload,
    measurements: caseload.measurements.filter((m) => m.measure in measures),
  });
  const assess = await engine(root, DRAWS);
  const [before, now] = quickest(records, [await engine(baseline, BASELINE_DRAWS), assess]);
  const one = mean(now);
  note('forecast of a child, one core', one, 'ms', `${mean(before).toFixed(0)} ms at ${BASELINE}`);
  note(
    'the same, median / 99th percentile',
    quantile(now, 0.5),
    'ms',
    `${quantile(now, 0.99).toFixed(0)} ms`,
  );
  note('times as fast as the baseline, one core', mean(before) / one, 'x');
  growthWithReadings(records, assess);
  growthWithChildren(records, assess);
  await twoThreads(records);
}

/** The power of the number of readings that the time grows with: of all visits, every second and every fourth. */
function growthWithReadings(records: readonly ChildRecord[], assess: (r: ChildRecord) => void): void {
  const points = [1, 2, 4].map((step) => {
    const thinned = records.map((r) => {
      const visits = [...new Set(r.measurements.map((m) => m.date))].sort();
      const kept = new Set(visits.filter((_, i) => (visits.length - 1 - i) % step === 0));
      return { ...r, measurements: r.measurements.filter((m) => kept.has(m.date)) };
    });
    const [times] = quickest(thinned, [assess]);
    return { of: thinned.reduce((sum, r) => sum + r.measurements.length, 0), time: mean(times) };
  });
  const span = `${points[2].of} to ${points[0].of} readings of ${records.length} children`;
  note('time grows with readings to the power of', power(points[2], points[0]), '', span);
}

const STREAMED = 1200;
/** The same with children, one after another as in a nightly run, and what they leave behind in memory. */
function growthWithChildren(records: readonly ChildRecord[], assess: (r: ChildRecord) => void): void {
  const begin = process.cpuUsage();
  const points: { of: number; time: number; mb: number }[] = [];
  for (let i = 1; i <= STREAMED; i++) {
    const record = records[i % records.length];
    assess({ ...record, child: { ...record.child, id: `${record.child.id}-${i}` } });
    if (i !== STREAMED / 4 && i !== STREAMED) continue;
    const { user, system } = process.cpuUsage(begin);
    points.push({ of: i, time: user + system, mb: process.memoryUsage().rss / 2 ** 20 });
  }
  const [few, all] = points;
  note('time grows with children to the power of', power(few, all), '', `${few.of} to ${all.of} children`);
  note(
    'memory after them, against after the first quarter',
    all.mb - few.mb,
    'MB',
    `${all.mb.toFixed(0)} MB`,
  );
}

const power = (few: { of: number; time: number }, all: { of: number; time: number }): number =>
  Math.log(all.time / few.time) / Math.log(all.of / few.of);

/** A batch on one thread and on all: the threads are started anew, as for a caseload on the command line. */
async function twoThreads(records: readonly ChildRecord[]): Promise<void> {
  const batch = Array.from({ length: 40 }, () => records).flat();
  const { loadRules } = await import('../../src/rules/load-rules.js');
  const settings = { today, model: undefined, rules: loadRules(), seed: 1, draws: DRAWS };
  const run = () => assessInParallel(batch, settings, () => {});
  const single = await seconds(run);
  const all = await seconds(() => {
    startThreads(settings, batch.length);
    return run();
  });
  note(`${batch.length} children on ${availableParallelism()} threads`, batch.length / all, 'a second');
  note('times as fast as on one thread', single / all, 'x', 'starting the threads included');
}

const moduleOf = (folder: string, name: string) => pathToFileURL(join(folder, 'src', `${name}.ts`)).href;

async function engine(folder: string, draws: number): Promise<(record: ChildRecord) => void> {
  const { assessChild } = await import(moduleOf(folder, 'forecast/assess-child'));
  const { loadGrowthModel } = await import(moduleOf(folder, 'growth/population/model'));
  const { loadRules } = await import(moduleOf(folder, 'rules/load-rules'));
  const context = { today, model: loadGrowthModel(), rules: loadRules(), seed: 1, draws };
  return (record) => assessChild(record, context);
}

function quickest(records: readonly ChildRecord[], engines: readonly ((r: ChildRecord) => void)[]) {
  const best = engines.map(() => new Float64Array(records.length).fill(Number.POSITIVE_INFINITY));
  for (let k = 0; k < REPEATS; k++)
    records.forEach((record, i) => {
      engines.forEach((assess, e) => {
        const began = process.cpuUsage();
        assess(record);
        const { user, system } = process.cpuUsage(began);
        best[e][i] = Math.min(best[e][i], (user + system) / 1000);
      });
    });
  return best;
}

/** The baseline's files with the packages it was made with; kept, because to install them takes a minute. */
function checkOut(): string {
  const folder = join(root, 'node_modules', '.cache', `baseline-${BASELINE}`);
  if (existsSync(join(folder, 'node_modules'))) return folder;
  mkdirSync(folder, { recursive: true });
  const files = execFileSync('git', ['archive', BASELINE], { cwd: root, maxBuffer: 2 ** 30 });
  execFileSync('tar', ['x'], { cwd: folder, input: files });
  execFileSync('npm', ['ci', '--ignore-scripts', '--omit=dev', '--no-audit', '--no-fund'], { cwd: folder });
  return folder;
}

async function seconds(run: () => Promise<unknown>): Promise<number> {
  const began = performance.now();
  await run();
  return (performance.now() - began) / 1000;
}

const mean = (of: Float64Array) => of.reduce((a, b) => a + b, 0) / of.length;
const quantile = (of: Float64Array, p: number) => of.toSorted()[Math.floor(p * (of.length - 1))];
