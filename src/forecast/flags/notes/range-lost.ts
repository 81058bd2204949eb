/** The ankle's range in degrees and what it was: 'DF -5 (was +5)', 'dorsiflexion 0, prev 10', 'DF from +10 to -5'. */
const NOW_AND_BEFORE =
  /\b(?:df|dorsi ?flexion|dorsiflex)\b[^.;\n]{0,40}?([-+]?\d+)[^.;\n]{0,30}?\b(?:was|were|prev|previously|before|compared (?:to|with)|last (?:visit|time))\b[^.;\n\d+-]{0,20}([-+]?\d+)/;
const FROM_TO =
  /\b(?:df|dorsi ?flexion|dorsiflex)\b[^.;\n]{0,30}?\bfrom ([-+]?\d+)[^.;\n\d+-]{0,10}\bto ([-+]?\d+)/;

/** Fewer degrees are taken for a contracture from so many on; a goniometer strays by about as much (common practice, no source). */
const LOST_DEG = 5;

/** The words that say that the ankle comes up by five degrees less than it did; null when none do. */
export function rangeLost(text: string): string | null {
  const change = FROM_TO.exec(text);
  const seen = NOW_AND_BEFORE.exec(text);
  const lost =
    (change && Number(change[1]) - Number(change[2])) ?? (seen && Number(seen[2]) - Number(seen[1]));
  if (lost === null || lost < LOST_DEG) return null;
  return (change ?? seen)?.[0] ?? null;
}
