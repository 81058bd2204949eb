/**
 * The forecast engine: child by child in CPU time, of a few repeats the quickest, so that what else runs counts for
 * little; and by the thousand, each version in a process of its own, built as the program is.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { demoClinic } from '../../src/demo/demo-clinic.js';
import { assessChild } from '../../src/forecast/assess-child.js';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import { type ChildRecord, groupByChild } from '../../src/records/caseload.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { note } from './measure.js';
import { ownProcess } from './own-process.js';

/** The version that others are compared with, and the draws it needed for what 512 even ones give now. */
const BASELINE = '8faf1a4';
const BASELINE_DRAWS = 1000;
const DRAWS = 512;
const REPEATS = 3;
/** Children of the baseline, and of this version on one thread and on two. */
const FEW = 240;
const MANY = 10_000;
const today = '2026-11-25';
const root = fileURLToPath(new URL('../../', import.meta.url));

const caseload = demoClinic({ children: 120, seed: 7, today }).caseload;

export async function benchEngine(): Promise<void> {
  const baseline = checkOut();
  // Dimensions that came later would stop the baseline.
  const { measures } = await import(pathToFileURL(join(baseline, 'src/records/measure.ts')).href);
  const records = groupByChild({
    ...caseload,
    measurements: caseload.measurements.filter((m) => m.measure in measures),
  });
  await benchMany(baseline, records);
  const context = { today, model: loadGrowthModel(), rules: loadRules(), seed: 1, draws: DRAWS };
  const assess = (record: ChildRecord) => assessChild(record, context);
  const now = quickest(records, assess);
  note('forecast of a child, median', quantile(now, 0.5), 'ms', `mean ${mean(now).toFixed(1)} ms CPU`);
  note('forecast of a child, 99th percentile', quantile(now, 0.99), 'ms');
  growthWithReadings(records, assess);
  growthWithChildren(records, assess);
}

/** A batch by the baseline, and by this version on one thread and on two: loading and starting included. */
async function benchMany(baseline: string, records: readonly ChildRecord[]): Promise<void> {
  const file = join(tmpdir(), `bench-children-${process.pid}.json`);
  writeFileSync(file, JSON.stringify({ today, records }));
  const rate = (name: string, children: number, { wall, cpu }: { wall: number; cpu: number }) => {
    note(name, children / wall, 'a second', `${((1000 * cpu) / children).toFixed(1)} ms CPU a child`);
    return children / wall;
  };
  const before = rate(
    `${FEW} children by ${BASELINE}`,
    FEW,
    await ownProcess(baseline, 'batch-alone', [file, FEW, BASELINE_DRAWS]),
  );
  const many = (threads: number) => ownProcess(root, 'batch-threads', [file, MANY, DRAWS, threads]);
  const one = rate(`${MANY} children on one thread`, MANY, await many(1));
  const two = rate(`${MANY} children on two threads`, MANY, await many(2));
  note('times as fast on two threads as on one', two / one, 'x', 'starting included');
  note('times as fast as the baseline, one thread', one / before, 'x');
  note('times as fast as the baseline, two threads', two / before, 'x');
  rmSync(file);
}

/** The power of the number of readings that the time grows with: of all visits, every second and every fourth. */
function growthWithReadings(records: readonly ChildRecord[], assess: (r: ChildRecord) => void): void {
  const points = [1, 2, 4].map((step) => {
    const thinned = records.map((r) => {
      const visits = [...new Set(r.measurements.map((m) => m.date))].sort();
      const kept = new Set(visits.filter((_, i) => (visits.length - 1 - i) % step === 0));
      return { ...r, measurements: r.measurements.filter((m) => kept.has(m.date)) };
    });
    return {
      of: thinned.reduce((sum, r) => sum + r.measurements.length, 0),
      time: mean(quickest(thinned, assess)),
    };
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

function quickest(records: readonly ChildRecord[], assess: (r: ChildRecord) => void): Float64Array {
  const best = new Float64Array(records.length).fill(Number.POSITIVE_INFINITY);
  for (let k = 0; k < REPEATS; k++)
    records.forEach((record, i) => {
      const began = process.cpuUsage();
      assess(record);
      const { user, system } = process.cpuUsage(began);
      best[i] = Math.min(best[i], (user + system) / 1000);
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

const mean = (of: Float64Array) => of.reduce((a, b) => a + b, 0) / of.length;
const quantile = (of: Float64Array, p: number) => of.toSorted()[Math.floor(p * (of.length - 1))];
