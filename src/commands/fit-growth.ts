import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { readTable } from '../exchange/csv/read-table.js';
import type { GrowthModel } from '../growth/population/growth-model.js';
import { toScale } from '../growth/population/growth-scale.js';
import { growthModel } from '../growth/population/model.js';
import { loadReferences } from '../reference/reference.js';
import { readSurveyRecords } from '../reference/survey-records.js';
import { randomStream } from '../statistics/random-stream.js';
import { baselineRules, type PointRule } from '../study/backtest/baselines.js';
import { cohortCurve, fitCohortCurves } from '../study/backtest/cohort-curves.js';
import { growthForecaster } from '../study/backtest/growth-forecaster.js';
import type { GrowthRecord } from '../study/backtest/growth-record.js';
import { outgrownDates } from '../study/backtest/outgrown-dates.js';
import { parseRecords } from '../study/backtest/parse-records.js';
import { simulatedRecords } from '../study/backtest/simulated-children.js';
import { fitGrowthModel, type GrowthFitInput } from '../study/fit/fit-growth-model.js';
import type { FollowedChild, FollowedRow } from '../study/fit/followed-records.js';
import { growthSettings } from '../study/fit/growth-settings.js';
import { infantCases } from '../study/fit/infant-cases.js';
import { infantResidual } from '../study/fit/infant-residual.js';
import { measuredError } from '../study/fit/measured-error.js';
import { parseInfants } from '../study/fit/parse-infants.js';
import { sizeCorrelation } from '../study/fit/size-correlation.js';
import { childAges, modelsFolder, writeModel } from './fit-models.js';
import { terminal } from './terminal.js';

const FOLDS = 5;
const groups = Array.from({ length: FOLDS }, (_, f) => f);
/** Children drawn from the model for the floor of the dates. */
const SIMULATED = 60;
const VERSION = '1.3.0';

/**
 * `doorpost fit growth`: estimates the growth model from children measured many times, measures its error on
 * children left out, and writes parameters.json and model-card.md.
 */
export function fitGrowth(children: string, infantFiles: readonly string[], survey: string): void {
  const [name, seed] = ['default', 1];
  const refs = loadReferences();
  const records = parseRecords(readTable(children, readFileSync(children)));
  const cohort = records.map(followedChild);
  const followed = infantFiles.flatMap((path) => parseInfants(readTable(path, readFileSync(path))));
  const infants = infantResidual(infantCases(followed, refs));
  const correlation = sizeCorrelation(readSurveyRecords(survey), growthSettings.measures, refs);
  const input: GrowthFitInput = { name, version: VERSION, seed, cohort, correlation, infants };
  const log = (what: string) => (i: number, l: number) =>
    terminal.err(`${what}, round ${i + 1} of ${growthSettings.iterations}: log likelihood ${l.toFixed(1)}`);
  const parameters = fitGrowthModel(input, refs, log('all children'));
  const fold = folds(cohort, seed);
  const withoutGroup = (f: number) => cohort.filter((_, i) => fold[i] !== f);
  const models = groups.map((f) =>
    growthModel(
      fitGrowthModel({ ...input, cohort: withoutGroup(f) }, refs, log(`group ${f + 1} left out`)),
      refs,
    ),
  );
  const centiles = groups.map((f) => centileOf(records.filter((_, i) => fold[i] !== f)));
  const groupOf = new Map(records.map((record, i) => [record.id, fold[i]]));
  const leftOut = (record: GrowthRecord) => groupOf.get(record.id) as number;
  const whole = growthModel(parameters, refs);
  const settings = { noise: 'clinic' as const, seed, noiseDraws: 1 };
  const dated = (all: readonly GrowthRecord[], model: (record: GrowthRecord) => GrowthModel) =>
    outgrownDates(all, (record) => [growthForecaster(name, model(record), 'clinic', seed)], settings);
  const data = [
    `${cohort.length} children followed (${basename(children)}), ${cohort.reduce((s, c) => s + c.rows.length, 0)} readings.`,
    `Correlation between measures: children measured once (${basename(survey)}).`,
    'Mean curves of measures without serial records, and of leg length below 8 years: the working reference.',
  ];
  terminal.err('error on the children left out');
  const folder = join(modelsFolder, name);
  writeModel(folder, parameters, {
    curves:
      'Mean curves, effects of tempo and intensity on size and the covariance of deviations were learned by\nexpectation-maximisation from the followed children, the covariance shrunk towards a designed one.',
    errors: measuredError(
      records,
      (r) => ({ model: models[leftOut(r)], centile: centiles[leftOut(r)] }),
      seed,
    ),
    dates: dated(records, (r) => models[leftOut(r)]),
    dateFloors: dated(simulatedRecords(whole, SIMULATED, seed), () => whole),
    ...{ data, infants },
  });
  terminal.out(folder);
}

/** The rule of staying on these children's own centile, of stature and leg length. */
function centileOf(records: readonly GrowthRecord[]): PointRule {
  const cohort = cohortCurve(fitCohortCurves(records, childAges));
  return baselineRules({ published: cohort, own: cohort, cohort })['cohort-centile'];
}

const followedChild = (record: GrowthRecord): FollowedChild => ({
  sex: record.sex,
  rows: record.visits.flatMap((v) =>
    Object.entries(v.sizes).map(([id, size]) => {
      const measure = id as FollowedRow['measure'];
      return { measure, ageYears: v.ageYears, value: toScale(measure, size as number) };
    }),
  ),
});

/** Groups of children, evenly by sex, in seeded order. */
function folds(cohort: readonly FollowedChild[], seed: number): number[] {
  const stream = randomStream(seed);
  const out = new Array<number>(cohort.length);
  for (const sex of ['male', 'female'])
    cohort
      .map((c, i) => ({ i, sex: c.sex, order: stream.uniform() }))
      .filter((c) => c.sex === sex)
      .sort((a, b) => a.order - b.order)
      .forEach(({ i }, rank) => {
        out[i] = rank % FOLDS;
      });
  return out;
}
