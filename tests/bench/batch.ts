/** A batch of children through the engine, by how many they are, what it keeps of them, and the charts of one. */
import { growthChart } from '../../src/charts/growth-chart.js';
import { pngOf, renderSvg } from '../../src/charts/render-chart.js';
import { demoClinic } from '../../src/demo/demo-clinic.js';
import { assessChild } from '../../src/forecast/assess-child.js';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import { type ChildRecord, groupByChild } from '../../src/records/caseload.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { note } from './measure.js';

const today = '2026-11-25';
const SIZES = [1, 100, 10_000];
const DIFFERENT = 100;
const CHARTS = 10;

const records = (): ChildRecord[] =>
  groupByChild(demoClinic({ children: DIFFERENT, seed: 3, today }).caseload);
const context = () => ({ today, model: loadGrowthModel(), rules: loadRules(), seed: 1, draws: 512 });

export async function benchBatch(): Promise<void> {
  const [children, using] = [records(), context()];
  // Warm: a service has long been running.
  for (const record of children) assessChild(record, using);
  for (const size of SIZES) {
    global.gc?.();
    const [began, before] = [performance.now(), process.memoryUsage().rss];
    for (let i = 0; i < size; i++) assessChild(children[i % DIFFERENT], using);
    const seconds = (performance.now() - began) / 1000;
    const grown = (process.memoryUsage().rss - before) / 2 ** 20;
    note(
      `forecasts of ${size} children, one core`,
      size / seconds,
      'a second',
      `memory ${grown.toFixed(0)} MiB more after it`,
    );
  }
}

export async function benchCharts(): Promise<void> {
  const using = context();
  const specs = records()
    .slice(0, CHARTS)
    .map((record) => {
      const { growth, forecasts } = assessChild(record, using);
      const posterior = growth.kind === 'posterior' ? growth.posterior : null;
      const measure = record.measurements[0].measure;
      return growthChart({ record, measure, today, posterior, forecasts, centileAt: () => null });
    });
  const svgs: string[] = [];
  const first = performance.now();
  svgs.push(await renderSvg(specs[0]));
  const began = performance.now();
  for (const spec of specs.slice(1)) svgs.push(await renderSvg(spec));
  note(
    'growth chart as SVG',
    (performance.now() - began) / (CHARTS - 1),
    'ms',
    `the first ${(began - first).toFixed(0)} ms`,
  );
  const drawn = performance.now();
  for (const svg of svgs) await pngOf(svg);
  note('the same as PNG', (performance.now() - drawn) / CHARTS, 'ms');
}
