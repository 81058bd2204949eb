import { assess } from './assess.js';
import { oneChild } from './child-words.js';
import { forecastDetails, forecastTable } from './forecast-text.js';
import { type ReadingOptions, readPaths, readRules, tell, todayOf } from './reading-options.js';
import { acceptedSettings } from './recall-list.js';
import { terminal, wrap } from './terminal.js';

export interface ForecastOptions extends ReadingOptions {
  readonly child?: string;
  readonly tolerance?: number;
}

/** Children whose reasons and cautions are written out; of more, the table and what needs doing. */
const DETAILS_UP_TO = 12;
const CAUTION =
  'An estimate from measurements, not a diagnosis. Growth is irregular: check skin and fit at every visit, keep the usual reviews, and let the date yield to what is seen.';

/** `doorpost forecast`: when each device is outgrown, by what, and by when to cast the next. */
export async function forecastCaseload(paths: readonly string[], options: ForecastOptions): Promise<number> {
  const parsed = await readPaths(paths, options);
  const caseload = options.child === undefined ? parsed.caseload : oneChild(parsed.caseload, options.child);
  const assessed = await assess(caseload, {
    today: todayOf(options),
    rules: readRules(options.rules),
    settings: acceptedSettings(options.tolerance),
  });
  const children = assessed.records.map(({ child }) => {
    const { forecasts = [], flags = [], suggestions = [] } = assessed.assessments.get(child.id) ?? {};
    const decisions = forecasts.flatMap(({ deviceId }) => {
      const decision = assessed.decisions.get(deviceId);
      if (!decision) return [];
      const { forecast: _, ...decided } = decision;
      return [decided];
    });
    return { childId: child.id, forecasts, decisions, flags, suggestions };
  });
  const details = forecastDetails(assessed, assessed.records.length <= DETAILS_UP_TO);
  const code = tell(parsed, options, { today: assessed.today, children }, [forecastTable(assessed), details]);
  if (!options.json) terminal.out(`\n${wrap(CAUTION, 110)}`);
  return code;
}
