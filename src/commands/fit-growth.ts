import { existsSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { DoorpostError } from '../errors.js';
import { readTable } from '../exchange/csv/read-table.js';
import { toScale } from '../growth/population/growth-scale.js';
import { growthModel, loadGrowthModel } from '../growth/population/model.js';
import type { GrowthParameters } from '../growth/population/parameters.js';
import { loadReferences } from '../reference/reference.js';
import { readSurveyRecords } from '../reference/survey-records.js';
import { randomStream } from '../statistics/random-stream.js';
import type { GrowthRecord } from '../study/backtest/growth-record.js';
import { parseRecords } from '../study/backtest/parse-records.js';
import { anchorInput } from '../study/fit/anchor-input.js';
import type { AnchorChild } from '../study/fit/anchor-records.js';
import { correlationOf, fitGrowthModel, type GrowthFitInput } from '../study/fit/fit-growth-model.js';
import { growthSettings } from '../study/fit/growth-settings.js';
import { infantWandering } from '../study/fit/infant-wandering.js';
import { measuredError } from '../study/fit/measured-error.js';
import { modelCard } from '../study/fit/model-card.js';
import { parseInfants } from '../study/fit/parse-infants.js';
import { referencesOnly } from '../study/fit/references-only.js';
import { type Terminal, terminal } from './terminal.js';

const shipped = fileURLToPath(new URL('../../models/', import.meta.url));
const FOLDS = 5;
const VERSION = '1.1.0';

export interface FitGrowthOptions {
  readonly cohort: readonly string[];
  readonly infants?: readonly string[];
  readonly records?: string;
  readonly name?: string;
  readonly out?: string;
  readonly seed?: number;
}

/**
 * `doorpost fit growth`: estimates the growth model from children measured many times, measures its error on
 * children left out, and writes parameters.json and model-card.md. Under the name 'default' it also writes
 * 'references-only', whose curves come from the references and a caseload offset alone.
 */
export async function fitGrowth(opts: FitGrowthOptions, io: Terminal = terminal): Promise<void> {
  const name = opts.name ?? 'default';
  const seed = opts.seed ?? 1;
  const folder = opts.out ?? shipped;
  const refs = loadReferences();
  const cohort = opts.cohort.flatMap((path) => readCohort(path));
  const infants = opts.infants?.length
    ? infantWandering(
        opts.infants.flatMap((path) => parseInfants(path, readTable(path, read(path)))),
        refs,
      )
    : null;
  const correlation = opts.records
    ? correlationOf(readSurveyRecords(csvIn(opts.records)), refs)
    : loadGrowthModel().parameters.correlation;
  const input: GrowthFitInput = { name, version: VERSION, seed, cohort, correlation, infants };
  const log = (what: string) => (i: number, l: number) =>
    io.err(`${what}, round ${i + 1} of ${growthSettings.iterations}: log likelihood ${l.toFixed(1)}`);
  const { parameters } = fitGrowthModel(input, refs, log('all children'));
  const fold = folds(cohort, seed);
  const models = Array.from({ length: FOLDS }, (_, f) => {
    const others = { ...input, cohort: cohort.filter((_, i) => fold[i] !== f) };
    return growthModel(fitGrowthModel(others, refs, log(`group ${f + 1} left out`)).parameters, refs);
  });
  const place = new Map(cohort.map((c, i) => [c, i]));
  const errors = measuredError(cohort, (c) => models[fold[place.get(c) as number]], seed);
  const data = [
    `${cohort.length} children followed (${opts.cohort.map((p) => basename(p)).join(', ')}), ${cohort.reduce((s, c) => s + c.rows.length, 0)} readings.`,
    opts.records
      ? `Correlation between measures: children measured once (${basename(opts.records)}).`
      : 'Correlation between measures: as in the default model before this run.',
    'Mean curves of measures without serial records, and of leg length below 8 years: the working reference.',
  ];
  const command = `doorpost fit growth --cohort ... --name ${name} --seed ${seed}`;
  write(
    join(folder, name),
    parameters,
    modelCard({
      parameters,
      curves:
        'Mean curves, effects of tempo and intensity on size and the covariance of deviations were learned by\nexpectation-maximisation from the followed children, the covariance shrunk towards a designed one.',
      data,
      infants,
      errors,
      command,
    }),
  );
  io.out(join(folder, name));
  if (name !== 'default') return;
  const caseload = (children: readonly AnchorChild[]) => children.map((c) => anchorInput(c.sex, c.rows));
  const plainInput = { ...input, name: 'references-only' };
  const plain = referencesOnly(plainInput, refs, caseload(cohort));
  const plainModels = Array.from({ length: FOLDS }, (_, f) =>
    growthModel(referencesOnly(plainInput, refs, caseload(cohort.filter((_, i) => fold[i] !== f))), refs),
  );
  const plainErrors = measuredError(cohort, (c) => plainModels[fold[place.get(c) as number]], seed);
  write(
    join(folder, plain.name),
    plain,
    modelCard({
      parameters: plain,
      curves:
        'Mean curves are medians of the working reference with the smear of mixed tempos taken out; the spread of\ndeviations is as designed, not estimated. The curves were then moved to the followed children as to a caseload:\nfive numbers per measure and sex (level, slope, bend and two finer shapes), nothing else was learned from them.',
      data,
      infants,
      errors: plainErrors,
      command,
    }),
  );
  io.out(join(folder, plain.name));
}

function write(folder: string, parameters: GrowthParameters, card: string): void {
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'parameters.json'), `${JSON.stringify(parameters)}\n`);
  writeFileSync(join(folder, 'model-card.md'), card);
}

function csvIn(path: string): string {
  return existsSync(path) && statSync(path).isDirectory() ? join(path, 'children.csv') : path;
}

function read(path: string): Buffer {
  if (!existsSync(path)) throw new DoorpostError('invalid-file', `there is no file ${path}`, { file: path });
  return readFileSync(path);
}

function readCohort(path: string): AnchorChild[] {
  const file = csvIn(path);
  return parseRecords(readTable(file, read(file)), 'children').map(
    (record: GrowthRecord): AnchorChild => ({
      sex: record.sex,
      rows: record.visits.flatMap((v) =>
        Object.entries(v.sizes).map(([measure, size]) => ({
          measure: measure as AnchorChild['rows'][number]['measure'],
          ageYears: v.ageYears,
          value: toScale(measure as AnchorChild['rows'][number]['measure'], size as number),
        })),
      ),
    }),
  );
}

/** Groups of children, evenly by sex, in seeded order. */
function folds(cohort: readonly AnchorChild[], seed: number): number[] {
  const chance = randomStream(seed);
  const out = new Array<number>(cohort.length);
  for (const sex of ['male', 'female'])
    cohort
      .map((c, i) => ({ i, sex: c.sex, order: chance.uniform() }))
      .filter((c) => c.sex === sex)
      .sort((a, b) => a.order - b.order)
      .forEach(({ i }, rank) => {
        out[i] = rank % FOLDS;
      });
  return out;
}
