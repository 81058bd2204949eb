import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { readTable } from '../exchange/csv/read-table.js';
import type { BaselineCurvesFile } from '../growth/population/baseline-curves.js';
import { groupBy } from '../statistics/group-by.js';
import { fitBaselines as fitOneCohort } from '../study/backtest/fit-baselines.js';
import type { GrowthRecord } from '../study/backtest/growth-record.js';
import { type ColumnSet, parseRecords } from '../study/backtest/parse-records.js';
import { referenceSizeCurves } from '../study/backtest/reference-curves.js';
import type { InfantRecord } from '../study/fit/infant-cases.js';
import { parseInfants } from '../study/fit/parse-infants.js';
import { modelsFolder } from './fit-model-folder.js';
import { terminal } from './terminal.js';

/** Ages the curves are tabulated at: the Berkeley records' own, and quarters for infants. */
export const childAges = [2, 3, 4, 5, 6, 7, ...Array.from({ length: 21 }, (_, i) => 8 + i / 2)];
const ages = {
  children: childAges,
  infants: Array.from({ length: 9 }, (_, i) => i / 4),
} as const;

/**
 * `doorpost fit baselines`: mean and SD curves of a training cohort and the error SDs of the plain methods in it,
 * into models/<name>/. Numbers by age and sex only; no child's rows.
 */
export async function fitBaselines(opts: {
  cohort: string;
  infants: readonly string[];
  name?: string;
  out?: string;
  seed?: number;
}): Promise<void> {
  const name = opts.name ?? 'baselines';
  const seed = opts.seed ?? 1;
  const table = (path: string) => readTable(path, readFileSync(path));
  const one = (paths: readonly string[], records: readonly GrowthRecord[], columnSet: ColumnSet) => {
    const source = `${records.length} followed children of ${paths.map((p) => basename(p)).join(', ')}`;
    terminal.err(source);
    return fitOneCohort(records, referenceSizeCurves(columnSet), { source, ages: ages[columnSet], seed });
  };
  const infants = opts.infants
    .flatMap((path) => parseInfants(basename(path), table(path)))
    .map(infantAsRecord);
  const file: BaselineCurvesFile = {
    name,
    version: '1',
    seed,
    children: one([opts.cohort], parseRecords(table(opts.cohort), 'children'), 'children'),
    infants: one(opts.infants, infants, 'infants'),
  };
  const folder = opts.out ?? join(modelsFolder, name);
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'baseline-curves.json'), `${JSON.stringify(file)}\n`);
  writeFileSync(join(folder, 'model-card.md'), card(file));
  terminal.out(join(folder, 'baseline-curves.json'));
}

/** Followed infants as a backtest reads them; lengths of one age are averaged. */
const infantAsRecord = ({ cohort, sex, visits }: InfantRecord, i: number): GrowthRecord => ({
  id: `${cohort}/${i}`,
  sex,
  visits: [...groupBy(visits, (v) => v.ageYears)]
    .sort(([a], [b]) => a - b)
    .map(([ageYears, same]) => ({
      ageYears,
      sizes: { stature: same.reduce((sum, v) => sum + v.lengthMm, 0) / same.length },
    })),
});

function card(file: BaselineCurvesFile): string {
  return `# Baseline curves: what the growth model is compared with

Written by \`doorpost fit baselines\`, seed ${file.seed}. Mean and SD of size by age and sex in a training cohort
(the 'cohort-centile' method), and the root mean square error each plain method had in that cohort by age, sex,
horizon and noise (from it, a normal predictive distribution, so that its CRPS can be compared).

- children: ${file.children.source}; stature and leg length (stature less stem length) at 2 to 18 years;
  Berkeley Growth Study, Tuddenham & Snyder 1954, training half.
- infants: ${file.infants.source}; lying length to 2 years; CONTENT (Peru, 2007-11) and SMOCC (Netherlands),
  training halves pooled, though the two populations differ by about 2 cm at two years.
- Mean and SD are taken at the record's ages without smoothing and joined by monotone cubics; a child counts at an
  age between two of its rows by interpolation. The error SDs count the year before and after half, over 20 draws of
  the clinic's noise (SD 4 mm stature, 5 mm leg length).
- A method's SD includes its bias: the point forecast itself is left as the method gives it.
- Nothing here is used by a clinic's forecast, and no child's rows are in the file.
`;
}
