import { logAge } from '../../growth/population/growth-age.js';
import { lmsAt, type References, zScore } from '../../reference/reference.js';

/** A child followed in infancy: length, mm. */
export interface InfantRecord {
  readonly cohort: string;
  readonly sex: 'male' | 'female';
  readonly visits: readonly { readonly ageYears: number; readonly lengthMm: number }[];
}

/** A reading on the log-age axis as a z-score, and how many z one mm is there. */
export interface InfantReading {
  readonly ageYears: number;
  readonly x: number;
  readonly z: number;
  readonly perMm: number;
}

/** One forecast to be made: two or three readings, the last one today's, and what was read some months later. */
export interface InfantCase {
  readonly childId: string;
  readonly monthsAhead: number;
  readonly known: readonly InfantReading[];
  readonly later: InfantReading;
}

/** How far ahead, months, and how far from it the later reading may lie, years: visits are not to the day. */
const AHEAD = [
  { months: 1, within: 0.03 },
  { months: 2, within: 0.035 },
  { months: 4, within: 0.045 },
] as const;
const MOST_KNOWN = 3;
/** Readings of one forecast lie at least this far apart, years: daily ones would not tell more. */
const APART_YEARS = 0.07;
const UNTIL_YEARS = 2.5;
/** Beyond so many SD a length is a slip of the record. */
const MOST_Z = 6;

export function infantCases(infants: readonly InfantRecord[], refs: References): InfantCase[] {
  return infants.flatMap((record, i) => {
    const seen = readingsOf(record, refs);
    let last = Number.NEGATIVE_INFINITY;
    return seen.flatMap((today, j) => {
      if (today.ageYears - last < APART_YEARS) return [];
      last = today.ageYears;
      const known = knownAt(seen, j);
      if (known.length < 2) return [];
      return AHEAD.flatMap(({ months, within }) => {
        const at = today.ageYears + months / 12;
        const far = (r: InfantReading) => Math.abs(r.ageYears - at);
        const later = seen.reduce((best, r) => (far(r) < far(best) ? r : best));
        return far(later) > within || later === today
          ? []
          : [{ childId: `${record.cohort}/${i}`, monthsAhead: months, known, later }];
      });
    });
  });
}

function readingsOf(record: InfantRecord, refs: References): InfantReading[] {
  return record.visits
    .flatMap(({ ageYears, lengthMm }) => {
      const lms = lmsAt(refs, 'stature', record.sex, ageYears);
      if (!lms || ageYears > UNTIL_YEARS) return [];
      const z = zScore(lms, lengthMm);
      return Math.abs(z) < MOST_Z ? [{ ageYears, x: logAge(ageYears), z, perMm: 1 / (lms.m * lms.s) }] : [];
    })
    .sort((a, b) => a.ageYears - b.ageYears);
}

function knownAt(seen: readonly InfantReading[], today: number): InfantReading[] {
  const known = [seen[today]];
  for (let i = today - 1; i >= 0 && known.length < MOST_KNOWN; i--)
    if (known[0].ageYears - seen[i].ageYears >= APART_YEARS) known.unshift(seen[i]);
  return known;
}
