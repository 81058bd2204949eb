import { cautions } from '../cautions.js';
import type { Flag } from '../contract.js';
import { plainSeries, plainSpan, wholeMm } from '../words.js';
import { type FlagInput, flag } from './flag-input.js';
import { historyOf } from './history-of.js';

/** Feet stop first, girls near 12 and boys near 14 (Anderson 1956, from memory; sources differ): a year of margin. */
const MATURE_YEARS = { female: 11, male: 13, unknown: 11 } as const;
const MIN_DAYS = 300;
const NO_GROWTH_MM = 2;

/** Plateau before maturity: under 2 mm in ten months over at least three visits (common practice, no source). */
export function plateauFlags(input: FlagInput): Flag[] {
  const { sex } = input.record.child;
  return historyOf(input, ['foot_length', 'knee_height', 'stature', 'leg_length']).flatMap(
    ({ series, visits }) => {
      const last = visits.at(-1);
      if (!last || last.ageYears >= MATURE_YEARS[sex]) return [];
      const since = visits.findLast((v) => v.day <= last.day - MIN_DAYS);
      if (!since) return [];
      const span = visits.filter((v) => v.day >= since.day);
      const grown = last.value - since.value;
      if (span.length < 3 || grown >= NO_GROWTH_MM) return [];
      const seen = `${plainSeries(series)} changed by ${wholeMm(grown)} in ${plainSpan(last.day - since.day)} over ${span.length} visits.`;
      return [
        flag(input, `plateau-${series.measure}-${series.side}`, 'check', cautions.plateau, seen, { series }),
      ];
    },
  );
}
