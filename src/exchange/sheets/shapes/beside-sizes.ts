import { headingCandidates } from '../../headings/heading-meaning.js';
import { cellDevices } from '../cell-device.js';
import { daysMarked } from '../cell-device-dates.js';
import { cellSize } from '../cell-size.js';
import { saysNothing } from '../cell-words.js';

export const sizeOf = (text: string) =>
  headingCandidates(text).find((c) => c.meaning.kind === 'reading' && c.strength >= 0.5);

/**
 * A line among sizes that is none: 'AFO both' with 'cast 21/01/25' and 'fitted 18/02/25' under the days is a device, 'Notes'
 * with words beside it a remark where labels lead the line. Null for a line of sizes, and for a label alone.
 */
export function saidBesideSizes(
  own: readonly string[],
  measured: number,
  values: readonly string[],
): { readonly device: string; readonly notes: string } | null {
  const name = own[measured];
  const filled = values.filter((cell) => !saysNothing(cell));
  const isSize = (cell: string) => cellSize(cell) !== null && daysMarked(cell).days.length === 0;
  if (sizeOf(name) || filled.some(isSize)) return null;
  const dated = filled.some((cell) => daysMarked(cell).days.length > 0);
  if (dated || (filled.length > 0 && cellDevices(name).some((d) => (d.family ?? d.likely) !== null)))
    return { device: [name, ...filled].join(', '), notes: '' };
  const words = [...own.slice(1), ...filled].filter((cell) => cell !== '');
  return measured === 0 && words.length > 0 ? { device: '', notes: `${name}: ${words.join(', ')}` } : null;
}
