import { type MeasureId, measures } from '../../records/measure.js';

export interface LikelyTyped {
  readonly kind: 'unit-slip' | 'digit-slip';
  readonly value: number;
  readonly reason: string;
}

const SWAPPED = 'two digits swapped';
const WRONG = 'one digit wrong';

/** Wrong unit: what the number must be multiplied by, and what happened. */
const UNIT_SLIPS: readonly (readonly [factor: number, reason: string])[] = [
  [10, 'read as cm'],
  [0.1, 'entered ten times too large (mm given as cm)'],
  [25.4, 'read as inches'],
  [1 / 25.4, 'inches converted once too often'],
  [2.54, 'entered in inches in a cm column'],
  [1 / 2.54, 'entered in cm in an inch column'],
];
const WEIGHT_SLIPS: readonly (readonly [number, string])[] = [
  [0.453592, 'read as pounds'],
  [1 / 0.453592, 'converted from pounds once too often'],
  [0.001, 'entered in grams'],
];

/**
 * What was probably meant by `value` when about `expected` was due: a unit slip, two neighbouring digits swapped or
 * one digit wrong, in that order of likelihood. The nearest candidate within `tolerance` of the expectation; null when none is.
 */
export function likelyTyped(
  measure: MeasureId,
  value: number,
  expected: number,
  tolerance: number,
): LikelyTyped | null {
  const units = measures[measure].unit === 'kg' ? WEIGHT_SLIPS : UNIT_SLIPS;
  const candidates: LikelyTyped[] = [
    ...units.map(([factor, reason]) => ({ kind: 'unit-slip' as const, value: value * factor, reason })),
    ...digitSlips(value),
  ];
  const [low, high] = measures[measure].plausible;
  // A digit of small weight can always be changed into something near: that is no evidence.
  const telling = (c: LikelyTyped) => c.reason !== WRONG || Math.abs(c.value - value) >= 4 * tolerance;
  const fitting = candidates
    .filter(telling)
    .filter((c) => c.value >= low && c.value <= high && Math.abs(c.value - expected) <= tolerance)
    .sort((a, b) => Math.abs(a.value - expected) - Math.abs(b.value - expected));
  const best =
    fitting.find((c) => c.kind === 'unit-slip') ?? fitting.find((c) => c.reason === SWAPPED) ?? fitting[0];
  return best ? { ...best, value: Math.round(best.value * 10) / 10 } : null;
}

function digitSlips(value: number): LikelyTyped[] {
  const text = String(value);
  const slips: LikelyTyped[] = [];
  for (let i = 0; i < text.length; i++) {
    if (text[i] === '.') continue;
    const next = text[i + 1];
    if (next !== undefined && next !== '.' && next !== text[i])
      slips.push({
        kind: 'digit-slip',
        value: Number(text.slice(0, i) + next + text[i] + text.slice(i + 2)),
        reason: SWAPPED,
      });
    for (let d = 0; d <= 9; d++)
      if (String(d) !== text[i])
        slips.push({
          kind: 'digit-slip',
          value: Number(text.slice(0, i) + d + text.slice(i + 1)),
          reason: WRONG,
        });
  }
  return slips;
}
