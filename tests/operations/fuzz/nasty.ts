import type { Dice } from './dice.js';

/** Text as people and attackers type it, and words the readers know, so that some of it gets further. */
const texts = [
  '',
  ' ',
  '\u0000',
  '\ufeff',
  '\n',
  '\r\n',
  '\t',
  '"',
  '""',
  "'",
  ',',
  ';',
  '|',
  '=1+1',
  '＝1',
  '-',
  '–',
  'n/a',
  'NaN',
  'Infinity',
  '-0',
  '0',
  '1',
  '-1',
  '1e999',
  '1e-300',
  '5e-324',
  '9'.repeat(30),
  '1,234',
  '1.234,5',
  '17,5 cm',
  '178',
  '17.8cm',
  '6.9 in',
  '178 constructor',
  'constructor',
  '__proto__',
  'toString',
  'hasOwnProperty',
  'valueOf',
  'null',
  'undefined',
  'true',
  '[object Object]',
  '2018-03-14',
  '14.03.2018',
  '03/04/2024',
  '2024-02-30',
  '0000-00-00',
  '9999-12-31',
  '-2024-01-01',
  '45368',
  '99999',
  '2026-02-01T10:00:00Z',
  'c0',
  'c1',
  'c0-d',
  'c0-m0left',
  'left',
  'right',
  'both',
  'female',
  'male',
  'unknown',
  'foot_length',
  'stature',
  'weight',
  'solid-afo',
  'kafo',
  'spinal-orthosis',
  'bone-age',
  'verdict',
  'outgrown',
  'mm',
  'cm',
  'kg',
  '١٢٣',
  '\ud800',
  '😀'.repeat(20),
  'ﬀ',
  'İ',
  'a'.repeat(2000),
  `1${' '.repeat(3000)}x`,
  '../../etc/passwd',
  '%00',
  '%',
  '%E0%A4%A',
  '{{7*7}}',
  '<script>',
  "'; drop table children; --",
  '$1',
  '\\',
  '{"a":1}',
  '[null]',
  'x'.repeat(90),
  '/\t/evil.example',
  '//evil.example',
  'Bearer x',
  '"1"',
  'W/"1"',
  '*',
] as const;

export const text = (dice: Dice): string =>
  dice.chance(0.85)
    ? dice.of(texts)
    : String.fromCharCode(...dice.some(12, () => dice.below(dice.chance(0.8) ? 256 : 65536)));

const values: readonly unknown[] = [
  null,
  true,
  false,
  0,
  -0,
  -1,
  1.5,
  1e308,
  1e-300,
  178,
  20180314,
  Number.MAX_SAFE_INTEGER,
  [],
  {},
  [null],
  [[]],
  { value: 1 },
  { coding: [{ code: 'constructor' }] },
  { reference: 'Patient/c0' },
  [{}],
  { length: 3 },
];
export const value = (dice: Dice): unknown =>
  dice.chance(0.5) ? text(dice) : structuredClone(dice.of(values));

/** Changes the JSON value it is given in a few places: another value, a key gone, a key more, a list doubled. */
export function twist(root: unknown, dice: Dice, times = 1 + dice.below(3)): unknown {
  let twisted = root;
  for (let i = 0; i < times; i++) {
    if (typeof twisted !== 'object' || twisted === null || dice.chance(0.02)) {
      twisted = value(dice);
      continue;
    }
    let inside = twisted as Record<string, unknown>;
    for (;;) {
      const keys = Object.keys(inside);
      const key = dice.of(keys) ?? 'x';
      const next = inside[key];
      if (typeof next === 'object' && next !== null && dice.chance(0.75)) {
        inside = next as Record<string, unknown>;
        continue;
      }
      const change = dice.unit();
      if (change < 0.15) delete inside[key];
      else if (change < 0.3)
        Object.defineProperty(inside, text(dice), {
          value: value(dice),
          enumerable: true,
          configurable: true,
          writable: true,
        });
      else if (change < 0.4 && Array.isArray(next)) inside[key] = [...next, ...next];
      else inside[key] = value(dice);
      break;
    }
  }
  return twisted;
}

/** A few bytes changed, cut off or doubled. */
export function dented(bytes: Uint8Array, dice: Dice): Uint8Array {
  const copy = Uint8Array.from(bytes);
  if (copy.length === 0) return copy;
  for (let i = dice.below(4); i > 0; i--) copy[dice.below(copy.length)] = dice.below(256);
  if (dice.chance(0.1)) return copy.subarray(0, dice.below(copy.length));
  return copy;
}
