/** Day, month and year by their letters in six languages: '(m/d/y)', 'TT.MM.JJJJ', 'jj/mm/aaaa', 'gg-mm-aa', 'YYYY-MM-DD'. */
const HINT =
  /[([]?(?<![\p{L}\d])(d{1,2}|t{1,2}|j{1,2}|g{1,2}|m{1,2}|y{2,4}|j{4}|a{4})([-/. ])(d{1,2}|m{1,2})\2(d{1,2}|t{1,2}|y{1,4}|j{1,4}|a{1,4})\.?(?![\p{L}\d])[)\]]?/iu;

/** The order a heading itself gives its dates in; null where it gives none. dateOrderHint('DOB (m/d/y)') = 'mdy'. */
export function dateOrderHint(heading: string): 'dmy' | 'mdy' | null {
  const [, first, , second] = HINT.exec(heading) ?? [];
  if (first === undefined || /^(?:y|j{4}|a{4})/i.test(first)) return null;
  return /^m/i.test(first) && /^d/i.test(second) ? 'mdy' : 'dmy';
}

export const withoutDateHint = (heading: string): string => heading.replace(HINT, ' ');
