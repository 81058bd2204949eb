/** The ankle's range in degrees and what it was: 'DF -5 (was +5)', 'dorsiflexion 0, prev 10', 'DF from +10 to -5', 'DF -10 (was neutral)'. */
const NOW_AND_BEFORE =
  /\b(?:df|dorsi ?flexion|dorsiflex)\b[^.;\n]{0,40}?([-+]?\d+|neutral|plantigrade)[^.;\n]{0,30}?\b(?:was|were|prev|previously|before|compared (?:to|with)|last (?:visit|time))\b[^.;\n\d+-]{0,20}([-+]?\d+|neutral|plantigrade)/;
const FROM_TO =
  /\b(?:df|dorsi ?flexion|dorsiflex)\b[^.;\n]{0,30}?\bfrom ([-+]?\d+|neutral|plantigrade)[^.;\n\d+-]{0,10}\bto ([-+]?\d+|neutral|plantigrade)/;

/** Fewer degrees are taken for a contracture from so many on; a goniometer strays by about as much (common practice, no source). */
const LOST_DEG = 5;

/** 'Neutral' is nought. */
const degrees = (said: string): number => (/\d/.test(said) ? Number(said) : 0);

/** The words that say that the ankle comes up by five degrees less than it did; null when none do. */
export function rangeLost(text: string): string | null {
  const change = FROM_TO.exec(text);
  const seen = NOW_AND_BEFORE.exec(text);
  const lost =
    (change && degrees(change[1]) - degrees(change[2])) ?? (seen && degrees(seen[2]) - degrees(seen[1]));
  if (lost === null || lost < LOST_DEG) return null;
  return (change ?? seen)?.[0] ?? null;
}
