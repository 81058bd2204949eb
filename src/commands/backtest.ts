import { readFileSync, writeFileSync } from 'node:fs';
import { readTable } from '../exchange/csv/read-table.js';
import { loadBaselineCurves } from '../growth/population/baseline-curves.js';
import { loadGrowthModel } from '../growth/population/model.js';
import { allForecasters, backtest as runBacktest } from '../study/backtest/backtest.js';
import type { Noise } from '../study/backtest/clinic-noise.js';
import { HISTORY } from '../study/backtest/growth-record.js';
import { parseRecords } from '../study/backtest/parse-records.js';
import { referenceSizeCurves } from '../study/backtest/reference-curves.js';
import { terminal, textTable } from './terminal.js';

/** Noise is drawn anew this often: one draw alone moves a mean error of 68 children by about 2 %. */
const NOISE_DRAWS = 2;
const SEED = 1;

export interface BacktestOptions {
  readonly children: string;
  readonly out?: string;
  readonly noise?: 'none' | 'clinic';
}

/** `doorpost backtest`: forecasts recorded children from their past and compares with what happened. */
export async function backtest(opts: BacktestOptions): Promise<void> {
  const noise: Noise = opts.noise === 'clinic' ? 'clinic' : 'clean';
  const records = parseRecords(readTable(opts.children, readFileSync(opts.children)));
  const model = loadGrowthModel();
  const forecasters = allForecasters(model, loadBaselineCurves(), referenceSizeCurves(), {
    noise,
    seed: SEED,
  });
  const tables = runBacktest(records, forecasters, {
    noise,
    seed: SEED,
    noiseDraws: NOISE_DRAWS,
    progress,
  });
  const report = {
    command: 'backtest',
    model: model.name,
    modelVersion: model.version,
    children: records.length,
    history: HISTORY,
    noise,
    noiseDraws: noise === 'clean' ? 1 : NOISE_DRAWS,
    seed: SEED,
    ...tables,
  };
  if (opts.out !== undefined) writeFileSync(opts.out, `${JSON.stringify(report, null, 1)}\n`);
  terminal.out(summary(tables.rows));
}

function progress(step: string, done: number, of: number): void {
  if (process.stderr.isTTY) terminal.progress(`${step}: ${done} of ${of}`);
  else if (done === of || done % 10 === 0) terminal.err(`${step}: ${done} of ${of}`);
}

/** What a person wants first: a year ahead, before and during the years of the spurt, every method. */
function summary(rows: ReturnType<typeof runBacktest>['rows']): string {
  const shown = rows.filter(
    (r) => r.sex === 'all' && (r.ageBand === '9-15' || r.ageBand === 'below-8') && r.horizonYears === 1,
  );
  return textTable(
    ['measure', 'ages', 'ahead', 'method', 'n', 'MAE cm', 'CRPS cm', 'bias cm', '80 % covers', '90 % covers'],
    shown.map((r) => [
      r.measure,
      r.ageBand,
      `${r.horizonYears} y`,
      r.method,
      String(r.n),
      r.maeCm.toFixed(3),
      r.crpsCm.toFixed(3),
      r.biasCm.toFixed(3),
      r.coverage80.toFixed(3),
      r.coverage90.toFixed(3),
    ]),
  );
}
