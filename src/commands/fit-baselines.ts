import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { readTable } from '../exchange/csv/read-table.js';
import { fitBaselines as fitOneCohort } from '../study/backtest/fit-baselines.js';
import { parseRecords } from '../study/backtest/parse-records.js';
import { referenceSizeCurves } from '../study/backtest/reference-curves.js';
import { modelsFolder } from './fit-model-folder.js';
import { terminal } from './terminal.js';

/** Ages the curves are tabulated at: the Berkeley records' own. */
export const childAges = [2, 3, 4, 5, 6, 7, ...Array.from({ length: 21 }, (_, i) => 8 + i / 2)];
/**
 * `doorpost fit baselines`: mean and SD curves of a training cohort and the error SDs of the plain methods in it,
 * into models/<name>/. Numbers by age and sex only; no child's rows.
 */
export async function fitBaselines(opts: { cohort: string; out?: string; seed?: number }): Promise<void> {
  const seed = opts.seed ?? 1;
  const records = parseRecords(readTable(opts.cohort, readFileSync(opts.cohort)));
  const source = `${records.length} followed children of ${basename(opts.cohort)}`;
  terminal.err(source);
  const curves = fitOneCohort(records, referenceSizeCurves(), { source, ages: childAges, seed });
  const folder = opts.out ?? join(modelsFolder, 'baselines');
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'baseline-curves.json'), `${JSON.stringify(curves)}\n`);
  writeFileSync(join(folder, 'model-card.md'), card(curves.source, seed));
  terminal.out(join(folder, 'baseline-curves.json'));
}

function card(source: string, seed: number): string {
  return `# Baseline curves: what the growth model is compared with

Written by \`doorpost fit baselines\`, seed ${seed}. Mean and SD of size by age and sex in a training cohort
(the 'cohort-centile' method), and the root mean square error each plain method had in that cohort by age, sex,
horizon and noise (from it, a normal predictive distribution, so that its CRPS can be compared).

- children: ${source}; stature and leg length (stature less stem length) at 2 to 18 years;
  Berkeley Growth Study, Tuddenham & Snyder 1954, training half.
- Mean and SD are taken at the record's ages without smoothing and joined by monotone cubics; a child counts at an
  age between two of its rows by interpolation. The error SDs count the year before and after half, over 20 draws of
  the clinic's noise (SD 4 mm stature, 5 mm leg length).
- A method's SD includes its bias: the point forecast itself is left as the method gives it.
- Nothing here is used by a clinic's forecast, and no child's rows are in the file.
`;
}
