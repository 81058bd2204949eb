/** No number a clinic writes is longer; matching a long run of spaces would take its time. */
const LONGEST = 60;

/**
 * A number out of a cell: decimal point or decimal comma, thousands marked by spaces, apostrophes or by the
 * other mark. readNumber('17,5') = 17.5; readNumber('1.234,5') = 1234.5; readNumber('1 234') = 1234.
 * A single comma is a decimal comma: readNumber('1,234') = 1.234. Null when it is not a number.
 */
export function readNumber(text: string): number | null {
  if (text.length > LONGEST) return null;
  let digits = text
    .trim()
    .replace(/[\s'’_]/g, '')
    .replace('−', '-');
  const comma = digits.lastIndexOf(',');
  const point = digits.lastIndexOf('.');
  if (comma >= 0 && point >= 0) {
    const thousands = comma > point ? '.' : ',';
    if (!new RegExp(`^[+-]?\\d{1,3}(\\${thousands}\\d{3})+[.,]\\d+$`).test(digits)) return null;
    digits = digits.replaceAll(thousands, '');
  }
  digits = digits.replace(',', '.');
  if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(digits)) return null;
  return Number(digits);
}
