import { existsSync, writeFileSync } from 'node:fs';
import { DoorpostError } from '../errors.js';
import { loadReferenceSource, loadReferences } from '../reference/reference.js';
import { readSurveyRecords } from '../reference/survey-records.js';
import { type ShareRow, surveyShares } from '../reference/survey-shares.js';
import { type Terminal, terminal } from './terminal.js';

export interface ReferenceReport {
  /** Records with a usable sex and age. */
  readonly records: number;
  /** Against the tables doorpost fitted itself: what its smoothing has to answer for. */
  readonly rows: readonly ShareRow[];
  /** Stature and weight against the published tables that forecasts read them from (WHO 2006, CDC 2000). */
  readonly published: readonly ShareRow[];
}

/**
 * `doorpost check-reference`: how a file of cross-sectional records, in the columns of the 1977 survey of US
 * children, falls across the centiles of the references. Writes the report as JSON.
 */
export async function checkReference(
  opts: { children: string; out: string },
  io: Terminal = terminal,
): Promise<void> {
  if (!existsSync(opts.children))
    throw new DoorpostError('invalid-file', `there is no file ${opts.children}`, { file: opts.children });
  const records = readSurveyRecords(opts.children);
  const report: ReferenceReport = {
    records: records.length,
    rows: surveyShares(loadReferenceSource('us-children-1977'), records),
    published: surveyShares(loadReferences(), records, ['stature', 'weight']),
  };
  writeFileSync(opts.out, `${JSON.stringify(report, null, 2)}\n`);
  io.out(opts.out);
}
