import { cautions } from '../cautions.js';
import type { Flag } from '../contract.js';
import { isStillToGrow, standstill } from '../device/growth-stopped.js';
import { plainSeries, plainSpan, wholeMm } from '../words.js';
import { type FlagInput, flag } from './flag-input.js';
import { historyOf } from './history-of.js';

const MIN_DAYS = 300;

/** Plateau before maturity: no growth in ten months over at least three visits (common practice, no source). */
export function plateauFlags(input: FlagInput): Flag[] {
  const { sex } = input.record.child;
  return historyOf(input, ['foot_length', 'knee_height', 'stature', 'leg_length']).flatMap(
    ({ series, visits }) => {
      const last = visits.at(-1);
      if (!last || !isStillToGrow(sex, last.ageYears)) return [];
      const span = standstill(visits, MIN_DAYS);
      if (span === null || span.length < 3) return [];
      const grown = last.value - span[0].value;
      const seen = `${plainSeries(series)} changed by ${wholeMm(grown)} in ${plainSpan(last.day - span[0].day)} over ${span.length} visits.`;
      return [
        flag(input, `plateau-${series.measure}-${series.side}`, 'check', cautions.plateau, seen, { series }),
      ];
    },
  );
}
