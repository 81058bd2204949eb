/** The charts of a child. */
import { growthChart } from '../../src/charts/growth-chart.js';
import { pngOf, renderSvg } from '../../src/charts/render-chart.js';
import { demoClinic } from '../../src/demo/demo-clinic.js';
import { assessChild } from '../../src/forecast/assess-child.js';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import { type ChildRecord, groupByChild } from '../../src/records/caseload.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { note } from './measure.js';

const today = '2026-11-25';
const CHARTS = 10;

const records = (): ChildRecord[] => groupByChild(demoClinic({ children: CHARTS, seed: 3, today }).caseload);
const context = () => ({ today, model: loadGrowthModel(), rules: loadRules(), seed: 1, draws: 512 });

export async function benchCharts(): Promise<void> {
  const using = context();
  const specs = records().map((record) => {
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
