/** Words of a name stand between these. */
const BETWEEN = "[ ,.'’-]";
/** Shorter words have no room for a slip: every other one would fit. */
const SLIP_FROM_LETTERS = 4;

/** What a person typed to find a child, taken apart: words in any order, and birth dates. */
export interface NameSearch {
  readonly words: readonly string[];
  /** Dates as they may be read: day first and month first where both are possible. */
  readonly birthDates: readonly (readonly string[])[];
}

export function nameSearch(text: string): NameSearch {
  const parts = text
    .trim()
    .toLowerCase()
    .split(/[\s,;]+/)
    .filter(Boolean);
  const dates = parts.map(datesOf);
  return {
    words: parts.filter((_, i) => dates[i].length === 0),
    birthDates: dates.filter((d) => d.length > 0),
  };
}

function datesOf(part: string): string[] {
  const iso = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(part);
  if (iso) return [day(iso[1], iso[2], iso[3])];
  const other = /^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4})$/.exec(part);
  if (!other) return [];
  const [, a, b, year] = other;
  return [...new Set([...(+b <= 12 ? [day(year, b, a)] : []), ...(+a <= 12 ? [day(year, a, b)] : [])])];
}

const day = (year: string, month: string, date: string) =>
  `${year}-${month.padStart(2, '0')}-${date.padStart(2, '0')}`;

const escaped = (text: string) => text.replace(/[^\p{L}\p{N}]/gu, '\\$&');

/** A POSIX pattern for the beginning of a word of a name; with `slip` one letter may be wrong, missing, too many or two exchanged. */
export function wordPattern(word: string, slip: boolean): string {
  const letters = [...word];
  const spelt = letters.map(escaped);
  const forms = [spelt.join('')];
  if (slip && letters.length >= SLIP_FROM_LETTERS)
    for (let i = 0; i <= letters.length; i++) {
      const [before, after] = [spelt.slice(0, i), spelt.slice(i)];
      forms.push([...before, '.', ...after].join(''));
      if (after.length > 0)
        forms.push([...before, '.', ...after.slice(1)].join(''), [...before, ...after.slice(1)].join(''));
      if (after.length > 1) forms.push([...before, after[1], after[0], ...after.slice(2)].join(''));
    }
  return `(^|${BETWEEN})(${[...new Set(forms)].join('|')})`;
}

/** A POSIX pattern for names whose words begin with these letters, in the order typed. */
export function initialsPattern(word: string): string | null {
  if (!/^\p{L}{2,4}$/u.test(word)) return null;
  const [first, ...rest] = [...word];
  return `^${first}${rest.map((letter) => `.*${BETWEEN}${letter}`).join('')}[^ ]*$`;
}
