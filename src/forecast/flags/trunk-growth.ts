import { DAYS_A_YEAR } from '../../records/dates.js';
import { cautions } from '../cautions.js';
import type { Flag } from '../contract.js';
import { plainSeries, plainSpan, wholeMm } from '../words.js';
import { type FlagInput, flag } from './flag-input.js';
import { detectable, historyOf } from './history-of.js';

/** Faster than 5-10 year olds grow: 55 mm a year in stature, 20 in trunk (Dimeglio 2001, summary), by a quarter and a half. */
const FAST_MM_A_YEAR = { stature: 68, sitting_height: 30 } as const;
const MIN_DAYS = 80;
const MAX_DAYS = 430;

/** Rapid trunk growth in a child with a spinal curve or a spinal orthosis. */
export function trunkGrowthFlags(input: FlagInput): Flag[] {
  const { child } = input.record;
  const curve =
    child.conditions.some((c) => c === 'idiopathic-scoliosis' || c === 'neuromuscular-scoliosis') ||
    input.plans.some((p) => p.rule.region === 'trunk');
  if (!curve) return [];
  const fast = historyOf(input, ['sitting_height', 'stature']).flatMap(({ series, visits }) => {
    const last = visits.at(-1);
    const limit = FAST_MM_A_YEAR[series.measure as keyof typeof FAST_MM_A_YEAR];
    if (!last || last.ageYears < 5) return [];
    const from = visits.find((v) => last.day - v.day >= MIN_DAYS && last.day - v.day <= MAX_DAYS);
    if (!from) return [];
    const grown = last.value - from.value;
    const pace = (grown / (last.day - from.day)) * DAYS_A_YEAR;
    if (pace < limit || grown < detectable(last.error, from.error)) return [];
    const over = plainSpan(last.day - from.day);
    return [{ series, seen: `${plainSeries(series)} grew ${wholeMm(pace)} a year over ${over}` }];
  });
  if (fast.length === 0) return [];
  // The trunk is in the stature: both readings are one sign.
  const [{ series }] = fast;
  const seen = `${fast.map((f) => f.seen).join('; ')}.`;
  return [flag(input, `trunk-growth-${series.measure}`, 'check', cautions.trunkCurve, seen, { series })];
}
