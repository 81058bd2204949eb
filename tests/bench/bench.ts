/**
 * `npm run bench`: speeds that matter, side by side in one run, so that only ratios need to be compared between
 * machines. The figures are written to measured.json; `npm run bench:table` puts them into DEVELOPERS.md.
 * `npm run bench -- 20000` plans for that many children (default 20,000; 0 leaves it out). `npm run bench -- load 5000 50 180`
 * has that many children, people and seconds under load and nothing else, `-- engine` the forecasts, `-- stream 20000` so many
 * children from the database to the stored forecast; the figures are printed, not written.
 */

import { demoClinic } from '../../src/demo/demo-clinic.js';
import { assessChild } from '../../src/forecast/assess-child.js';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import type { RecallList } from '../../src/recall/contract.js';
import { buildRecallList } from '../../src/recall/decide/build-recall-list.js';
import { buildProgramme } from '../../src/recall/level/build-programme.js';
import { compactProblem } from '../../src/recall/level/compact-problem.js';
import { levellingSettings } from '../../src/recall/level/contract.js';
import { solveProgramme } from '../../src/recall/level/highs-solver.js';
import { levelPlan } from '../../src/recall/level/level-plan.js';
import { levelRecallList } from '../../src/recall/level/level-recall-list.js';
import { groupByChild } from '../../src/records/caseload.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { estimateTurnaround } from '../../src/turnaround/estimate-turnaround.js';
import { rampForecast, testRecord, today } from '../recall/build-a-clinic.js';
import { randomPlan } from '../recall/random-plan.js';
import { benchCharts } from './charts.js';
import { copiesOf } from './copies-of.js';
import { benchEngine } from './engine.js';
import { benchLoad } from './load.js';
import { measure, note, write } from './measure.js';
import { benchPages } from './pages.js';
import { readSheetOf } from './read-sheet.js';
import { benchStream } from './stream.js';

const DEMO_CHILDREN = 200;
/** Casting slots a week for each child in care: a clinic with a backlog, as the demo clinic has one. */
const SLOTS_A_CHILD = 0.06;
const LOAD = { children: 5000, people: 50, seconds: 180 };
const STREAMED = 20_000;

if (process.argv[2] === 'pages') {
  await benchPages(Number(process.argv[3] ?? LOAD.children), ...process.argv.slice(4, 6));
  process.exit();
}
if (process.argv[2] === 'load') {
  const [children, people, seconds] = process.argv.slice(3).map(Number);
  await benchLoad({ ...LOAD, ...(seconds ? { children, people, seconds } : {}) });
  process.exit();
}
if (process.argv[2] === 'stream') {
  await benchStream(Number(process.argv[3] ?? STREAMED));
  process.exit();
}
await benchEngine();
if (process.argv[2] === 'engine') process.exit();

const settings = levellingSettings.parse({});
const plan = (n: number) =>
  randomPlan(1, {
    requests: n,
    weeks: 26,
    clinicians: Math.max(1, Math.round(n / 2000)),
    limits: 3,
    bound: 0.3,
  });

await measure("reading a clinic's own sheet of 100,000 rows", () => readSheetOf(100_000));

await measure('recall list, 2,000 children', () => {
  const records = Array.from({ length: 2000 }, (_, i) => testRecord({ id: `c${i}` }));
  const forecasts = records.map((r, i) => rampForecast(`${r.child.id}/d1`, (i % 700) - 40, (i % 700) + 60));
  const list = buildRecallList(
    records.map((r, i) => ({ childId: r.child.id, forecasts: [forecasts[i]] })),
    records,
    (family) => estimateTurnaround([], family, today),
    { today, rules: loadRules() },
  );
  return `${list.entries.length} to call`;
});

const { requests, capacity } = plan(1500);
const whole = await measure('levelling 1,500, linear programme over all columns', async () => {
  const p = compactProblem(requests, capacity, settings);
  const all = p.costs.map((c) => [...c.keys()].filter((w) => Number.isFinite(c[w])));
  const built = buildProgramme(p, (i) => all[i]);
  return `cost ${(await solveProgramme(built.programme)).objective.toFixed(1)}`;
});
const columns = await measure('levelling 1,500, column generation and whole numbers', async () => {
  const p = await levelPlan(requests, capacity);
  return `cost ${p.cost.toFixed(1)}, gap ${(100 * p.gap).toFixed(3)} %`;
});
note('times as fast by column generation', whole.cpu / columns.cpu, 'x', 'CPU');

const many = Number(process.argv[2] ?? 20_000);
if (many > 0) {
  const big = plan(many);
  goal(
    await measure(`levelling ${many} visits over 26 weeks`, async () => {
      const p = await levelPlan(big.requests, big.capacity);
      return `gap ${(100 * p.gap).toFixed(3)} %, ${p.columns} columns, ${p.rounds} rounds`;
    }),
  );

  const clinic = manyChildren(many);
  let due: RecallList;
  const listed = await measure(`recall list, ${many} children of the demo clinic`, () => {
    due = buildRecallList(clinic.assessments, clinic.records, clinic.turnaroundOf, {
      today: clinic.today,
      rules: loadRules(),
    });
    return `${due.entries.length} to call`;
  });
  const slots = Math.round(many * SLOTS_A_CHILD);
  const leveled = await measure(`levelling them, ${slots} slots a week, 26 weeks`, async () => {
    const clinicians = Array.from({ length: 10 }, (_, k) => ({
      id: `clinician ${k}`,
      slotsPerWeek: Math.round(slots / 10),
    }));
    const { levelling } = await levelRecallList(due, {
      clinic: { clinicians, workshop: [{ families: [], jobsPerWeek: slots }] },
      childOf: clinic.childOf,
      turnaroundOf: clinic.turnaroundOf,
    });
    return `gap ${(100 * levelling.gap).toFixed(3)} %, ${levelling.visitsSaved} visits saved`;
  });
  goal({ wall: listed.wall + leveled.wall });
}
await benchCharts();
await benchStream(STREAMED);
await benchLoad(LOAD);
write();

function goal({ wall }: { wall: number }): void {
  console.log(`goal: 10 s on two cores; here ${wall.toFixed(1)} s`);
}

/** The demo clinic's children over and over under new ids: their records and forecasts are real, only the number is not. */
function manyChildren(count: number) {
  const demoToday = '2026-11-25';
  const { caseload } = demoClinic({ children: DEMO_CHILDREN, seed: 1, today: demoToday });
  const demo = groupByChild(caseload);
  const context = { today: demoToday, model: loadGrowthModel(), rules: loadRules(), seed: 1, draws: 200 };
  const assessed = demo.map((record) => assessChild(record, context));
  const copies = Array.from({ length: Math.ceil(count / DEMO_CHILDREN) }, (_, k) => k);
  const records = copiesOf(demo, count);
  const assessments = copies
    .flatMap((k) =>
      assessed.map((a) => ({
        ...a,
        childId: `${a.childId}-${k}`,
        forecasts: a.forecasts.map((f) => ({ ...f, deviceId: `${f.deviceId}-${k}` })),
      })),
    )
    .slice(0, count);
  const children = new Map(records.map((r) => [r.child.id, r.child]));
  const turnarounds = new Map(
    [...loadRules().keys()].map((f) => [f, estimateTurnaround(caseload.jobs, f, demoToday)] as const),
  );
  return {
    today: demoToday,
    records,
    assessments,
    childOf: (id: string) => children.get(id),
    turnaroundOf: (family: string) => turnarounds.get(family)!,
  };
}
