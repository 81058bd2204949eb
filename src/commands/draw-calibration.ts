import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { calibrationCoverage, calibrationHistograms } from '../charts/calibration-charts.js';
import { pngOf, renderSvg } from '../charts/render-chart.js';
import { type MeasureId, measures } from '../records/measure.js';
import { groupBy } from '../statistics/group-by.js';
import type { CalibrationRow } from '../study/backtest/calibration.js';

/** Age bands that do not overlap, in order. */
const bands = ['0-2', '2-5', '5-8', '8-11', '11-14', '14-18'];

/** The calibration page: for each measure a coverage chart and histograms, as SVG, PNG and one HTML page. */
export async function drawCalibration(rows: readonly CalibrationRow[], folder: string): Promise<void> {
  mkdirSync(folder, { recursive: true });
  const shown = rows.filter((r) => r.method === 'doorpost' && bands.includes(r.ageBand));
  const figures: string[] = [];
  for (const [measure, cells] of groupBy(shown, (r) => r.measure)) {
    const label = measures[measure as MeasureId].label;
    const charts = {
      coverage: calibrationCoverage({ measure: label, cells }),
      histograms: calibrationHistograms({ measure: label, cells }),
    };
    for (const [name, spec] of Object.entries(charts)) {
      const svg = await renderSvg(spec);
      writeFileSync(join(folder, `${measure}-${name}.svg`), svg);
      writeFileSync(join(folder, `${measure}-${name}.png`), await pngOf(svg));
      figures.push(`<figure>${svg}</figure>`);
    }
  }
  writeFileSync(
    join(folder, 'calibration.html'),
    `<!doctype html><html lang="en"><meta charset="utf-8"><title>Calibration of the growth forecasts</title>
<body><h1>Do the odds mean what they say?</h1>
<p>Each recorded child was forecast from its past and compared with what happened. A band that says 80 % should hold
the truth 80 times in 100, at every age and horizon.</p>
${figures.join('\n')}
</body></html>
`,
  );
}
