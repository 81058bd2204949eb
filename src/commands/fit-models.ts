import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { readTable } from '../exchange/csv/read-table.js';
import { growthModelNames } from '../growth/population/model.js';
import { type GrowthParameters, growthParameters } from '../growth/population/parameters.js';
import { fitSurveyReference } from '../reference/fit-survey-reference.js';
import { readSurveyRecords } from '../reference/survey-records.js';
import { writeReferenceTable } from '../reference/write-reference-table.js';
import { fitBaselines as fitOneCohort } from '../study/backtest/fit-baselines.js';
import { parseRecords } from '../study/backtest/parse-records.js';
import { referenceSizeCurves } from '../study/backtest/reference-curves.js';
import { fitNoteOdds, judgedNotes } from '../study/fit/fit-note-odds.js';
import { type CardFacts, modelCard } from '../study/fit/model-card.js';
import { leaveWritersOut, noteCard } from '../study/fit/note-card.js';
import { terminal } from './terminal.js';

const SEED = 1;

export const modelsFolder = fileURLToPath(new URL('../../models/', import.meta.url));

/** A model's folder: its parameters, what was measured of it, and the card that is written from the two. */
export function writeModel(folder: string, parameters: GrowthParameters, facts: CardFacts): void {
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'parameters.json'), `${JSON.stringify(parameters)}\n`);
  writeFileSync(join(folder, 'card-facts.json'), `${JSON.stringify(facts)}\n`);
  writeFileSync(join(folder, 'model-card.md'), modelCard(parameters, facts));
}

/** `doorpost fit cards`: every model's card anew from its parameters and what its fit measured, after a change of words. */
export function fitCards(): void {
  for (const name of growthModelNames()) {
    const folder = join(modelsFolder, name);
    const read = (file: string) => JSON.parse(readFileSync(join(folder, file), 'utf8'));
    const parameters = growthParameters.parse(read('parameters.json'));
    writeFileSync(join(folder, 'model-card.md'), modelCard(parameters, read('card-facts.json') as CardFacts));
    terminal.out(join(folder, 'model-card.md'));
  }
}

/** `doorpost fit notes`: the weights of notes as a whole, and their card, from models/notes/notes.csv. */
export function fitNotes(): void {
  const folder = join(modelsFolder, 'notes');
  const path = join(folder, 'notes.csv');
  const notes = judgedNotes(readTable(path, readFileSync(path)));
  const weights = fitNoteOdds(notes);
  writeFileSync(join(folder, 'weights.json'), `${JSON.stringify(weights)}\n`);
  writeFileSync(join(folder, 'model-card.md'), noteCard(weights, leaveWritersOut(notes)));
  terminal.out(join(folder, 'weights.json'));
}

const shipped = fileURLToPath(new URL('../../reference-data/us-children-1977/', import.meta.url));

/** `doorpost fit references`: fits L, M and S to a survey's records, into the table the working reference is read from. */
export function fitReferences(survey: string): void {
  const records = readSurveyRecords(survey);
  const rows = fitSurveyReference(records, ({ measure, sex, records: n, fit }) => {
    const { l, m, s } = fit.effectiveDegrees;
    const degrees = [l, m, s].map((v) => v.toFixed(1)).join(', ');
    terminal.err(`${measure}, ${sex}: ${n} records, effective degrees of freedom of L, M, S ${degrees}`);
  });
  writeReferenceTable(join(shipped, 'table.csv'), rows);
  terminal.out(join(shipped, 'table.csv'));
}

/** Ages the curves are tabulated at: the Berkeley records' own. */
export const childAges = [2, 3, 4, 5, 6, 7, ...Array.from({ length: 21 }, (_, i) => 8 + i / 2)];
/**
 * `doorpost fit baselines`: mean and SD curves of a training cohort and the error SDs of the plain methods in it,
 * into models/baselines/. Numbers by age and sex only; no child's rows.
 */
export function fitBaselines(cohort: string): void {
  const records = parseRecords(readTable(cohort, readFileSync(cohort)));
  const source = `${records.length} followed children of ${basename(cohort)}`;
  terminal.err(source);
  const curves = fitOneCohort(records, referenceSizeCurves(), { source, ages: childAges, seed: SEED });
  const folder = join(modelsFolder, 'baselines');
  writeFileSync(join(folder, 'baseline-curves.json'), `${JSON.stringify(curves)}\n`);
  writeFileSync(join(folder, 'model-card.md'), card(curves.source));
  terminal.out(join(folder, 'baseline-curves.json'));
}

function card(source: string): string {
  return `# Baseline curves: what the growth model is compared with

Written by \`doorpost fit baselines\`, seed ${SEED}. Mean and SD of size by age and sex in a training cohort
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
