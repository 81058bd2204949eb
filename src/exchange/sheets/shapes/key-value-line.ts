import { fieldHeaded, headingStrength } from '../../headings/heading-meaning.js';
import { isDay } from '../cell-date.js';
import { cellDevices } from '../cell-device.js';

/** 'Name' | 'Nora Keel' | 'Hosp No' | 'RX5512': labels, each with its value beside it, from end to end; never a line of headings. */
export function isKeyValueLine(cells: readonly string[]): boolean {
  const filled = cells.filter((cell) => cell !== '');
  if (filled.length < 2 || filled.length % 2 === 1) return false;
  const pairs = Array.from(
    { length: filled.length / 2 },
    (_, n) => [filled[2 * n], filled[2 * n + 1]] as const,
  );
  return (
    pairs.every(([label, value]) => isLabel(label) && isValue(label, value)) &&
    (pairs.length > 1 || pairs.some(([label, value]) => isSurely(label, value)))
  );
}

const fieldOf = (label: string) => fieldHeaded(label.replace(/[:=]\s*$/, ''));
const isLabel = (label: string): boolean => fieldHeaded(label.replace(/[:=]\s*$/, ''), 0.75) !== '';
const namesDevice = (label: string, value: string): boolean =>
  fieldOf(label) === 'device.family' && cellDevices(value).some(({ family }) => family !== null);
/** A value that cannot be the next column's heading. */
const isSurely = (label: string, value: string): boolean =>
  /[:=]\s*$/.test(label) ||
  isDay(value) ||
  namesDevice(label, value) ||
  (fieldOf(label) === 'child.id' && /\d/.test(value));
const isValue = (label: string, value: string): boolean =>
  isSurely(label, value) || headingStrength(value.replace(/[:=]\s*$/, '')) < 0.45;
