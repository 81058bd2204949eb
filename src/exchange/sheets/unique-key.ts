import type { Meaning } from '../headings/meaning.js';

/** Fields of which a row can have several. */
const REPEATABLE = new Set(['visit.date', 'child.contact', 'child.conditions', 'shoe.size']);

/** What a row can have only one of, the `which`th device's apart; null for what it can have several of. */
export function uniqueKey(meaning: Meaning, which = 1): string | null {
  // A head has two diagonals; which is which is asked of each.
  if (meaning.kind === 'reading' && meaning.measure === 'head_diagonal' && meaning.side === 'row')
    return null;
  if (meaning.kind === 'reading')
    return ['reading', meaning.measure, meaning.side, meaning.at ?? ''].join(' ').trim();
  if (meaning.kind !== 'field') return null;
  const { field, side, family } = meaning;
  if (field.startsWith('device.') || field === 'side') return `${field} ${side} ${family} ${which}`;
  // 'Age 1' and 'Age 2' are of two visits.
  if (field === 'visit.age') return `${field} ${which}`;
  return REPEATABLE.has(field) ? null : field;
}
