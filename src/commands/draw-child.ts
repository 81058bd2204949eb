import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { referenceCentiles } from '../charts/centile-rows.js';
import { wantedOf } from '../charts/device-key.js';
import { deviceTimeline } from '../charts/device-timeline.js';
import type { Spec } from '../charts/fill-spec.js';
import { growthChart } from '../charts/growth-chart.js';
import { pngOf, renderSvg } from '../charts/render-chart.js';
import type { DeviceForecast } from '../forecast/contract.js';
import { growthInput } from '../forecast/growth-input.js';
import { growthToDraw } from '../forecast/growth-to-draw.js';
import { recordUntil } from '../forecast/record-until.js';
import { loadGrowthModel } from '../growth/population/model.js';
import type { ChildRecord } from '../records/caseload.js';
import type { MeasureId } from '../records/measure.js';
import { loadReferences } from '../reference/reference.js';
import { type Assessed, assess } from './assess.js';
import { oneChild } from './child-words.js';
import { type ReadingOptions, readPaths, readRules, tell, todayOf } from './reading-options.js';
import { terminal } from './terminal.js';

/** Files hold no name; a child's id is made safe for a file system. */
const fileName = (childId: string): string => childId.replace(/[^A-Za-z0-9-]+/g, '_');

/**
 * Draws a growth chart for every dimension that limits a device in use (most room used first, three at most) and the
 * device timeline, each as Vega-Lite specification, SVG and PNG. Gives the paths.
 */
export async function drawChild(record: ChildRecord, assessed: Assessed, folder: string): Promise<string[]> {
  const { today, assessments, decisions: all } = assessed;
  const assessment = assessments.get(record.child.id);
  const forecasts = assessment?.forecasts ?? [];
  const model = loadGrowthModel();
  const posterior = growthToDraw(growthInput(recordUntil(record, today), model), model, today);
  const decisions = record.devices.flatMap((d) => all.get(d.id) ?? []);
  const actions = wantedOf(decisions);
  const centileAt = referenceCentiles(loadReferences());
  const caution = assessment?.flags.find(({ id }) => id === 'standing-reference')?.title;
  const charts: [string, Spec][] = measuresToDraw(record, forecasts).map((measure) => [
    measure,
    growthChart({ record, measure, today, posterior, forecasts, actions, centileAt, caution }),
  ]);
  if (record.devices.length > 0)
    charts.push(['devices', deviceTimeline({ record, forecasts, decisions, today })]);
  await mkdir(folder, { recursive: true });
  // Drawn one after another here, turned into pixels side by side elsewhere.
  const pixels: Promise<void>[] = [];
  const paths: string[] = [];
  for (const [name, spec] of charts) {
    const path = join(folder, `${fileName(record.child.id)}-${name.replaceAll('_', '-')}`);
    const svg = await renderSvg(spec);
    pixels.push(pngOf(svg).then((png) => writeFile(`${path}.png`, png)));
    await writeFile(`${path}.vl.json`, JSON.stringify(spec));
    await writeFile(`${path}.svg`, svg);
    paths.push(`${path}.vl.json`, `${path}.svg`, `${path}.png`);
  }
  await Promise.all(pixels);
  return paths;
}

const MOST_CHARTS = 3;

function measuresToDraw(record: ChildRecord, forecasts: readonly DeviceForecast[]): MeasureId[] {
  const limiting = forecasts
    .flatMap((f) => f.room)
    .toSorted((a, b) => a.roomMm / a.allowanceMm - b.roomMm / b.allowanceMm)
    .map((room) => room.series.measure);
  const read = record.measurements.map((m) => m.measure);
  return [...new Set([...limiting, ...(limiting.length > 0 ? [] : read)])].slice(0, MOST_CHARTS);
}

/** `doorpost chart`: one child's charts as files. */
export async function chartChild(
  paths: readonly string[],
  options: ReadingOptions & { child: string; out: string },
): Promise<number> {
  const parsed = await readPaths(paths, options);
  const assessed = await assess(oneChild(parsed.caseload, options.child), {
    today: todayOf(options),
    rules: readRules(options.rules),
  });
  const [record] = assessed.records;
  terminal.progress('Drawing ...');
  const written = await drawChild(record, assessed, options.out);
  terminal.progress('');
  return tell(parsed, options, { written }, written, true);
}
