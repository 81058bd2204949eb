import { plainWord } from './columns.js';
import { type MeasureHeading, measureHeading } from './measure-names.js';

/** Sizes of a device that a column can hold a measure of, and the field of the record each is. */
export const deviceSizes = {
  allowance: 'allowancesMm',
  limit: 'limitsMm',
  extension: 'extensionRangeMm',
} as const;
export type DeviceSize = keyof typeof deviceSizes;

/** 'allowance_foot_length_mm' and 'Foot length allowance (mm)': which size of a device a column holds, of which measure. */
export function deviceSizeHeading(heading: string): (MeasureHeading & { readonly size: DeviceSize }) | null {
  const words = plainWord(heading).split('_');
  const at = words.findIndex((word) => Object.hasOwn(deviceSizes, word));
  if (at < 0) return null;
  const named = measureHeading(words.toSpliced(at, 1).join('_'));
  return named && { ...named, size: words[at] as DeviceSize };
}
