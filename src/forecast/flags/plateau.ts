import { cautions } from '../cautions.js';
import type { Flag } from '../contract.js';
import { MATURE_YEARS, NO_GROWTH_MM } from '../device/growth-stopped.js';
import { plainSeries, plainSpan, wholeMm } from '../words.js';
import { type FlagInput, flag } from './flag-input.js';
import { historyOf } from './history-of.js';

/** Before the age at which a halt is usual, less a year of margin, it is asked about. */
const MARGIN_YEARS = 1;
const MIN_DAYS = 300;

/** Plateau before maturity: under 2 mm in ten months over at least three visits (common practice, no source). */
export function plateauFlags(input: FlagInput): Flag[] {
  const { sex } = input.record.child;
  return historyOf(input, ['foot_length', 'knee_height', 'stature', 'leg_length']).flatMap(
    ({ series, visits }) => {
      const last = visits.at(-1);
      if (!last || last.ageYears >= MATURE_YEARS[sex] - MARGIN_YEARS) return [];
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
