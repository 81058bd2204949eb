import { format, parseISO } from 'date-fns';
import type { IsoDate } from '../records/dates.js';
import type { AdjustmentKind } from '../records/device.js';
import { measures, type Series } from '../records/measure.js';

const written = new Map<IsoDate, string>();
const MOST_WRITTEN = 73_000;

/** '12 March 2027'. */
export function plainDate(date: IsoDate): string {
  const before = written.get(date);
  if (before !== undefined) return before;
  const text = format(parseISO(date), 'd MMMM yyyy');
  if (written.size < MOST_WRITTEN) written.set(date, text);
  return text;
}

/** 'left foot length', 'sitting height'. */
export function plainSeries({ measure, side }: Series): string {
  const label = measures[measure].label
    .replace(/ \(.*\)/, '')
    .replace(/^[A-Z](?=[a-z])/, (c) => c.toLowerCase());
  return side === 'none' ? label : `${side} ${label}`;
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** '3 mm', '0 mm'; whole millimetres, because no limb is measured finer. */
export const wholeMm = (value: number): string => `${Math.round(value) + 0} mm`;

/** A size somebody stated, to the tenth it may have: '8 mm', '6.5 mm'. */
export const statedMm = (value: number): string => `${Math.round(10 * value) / 10} mm`;

/** '19 months', '3 weeks'. */
export function plainSpan(days: number): string {
  if (days < 14) return `${days} days`;
  if (days < 60) return `${Math.round(days / 7)} weeks`;
  return `${Math.round(days / 30.44)} months`;
}

/** 'moving the side bar', 'a longer strap': how a way of making room is told. */
export const adjusting: Readonly<Record<AdjustmentKind, string>> = {
  'side-bar': 'moving the side bar',
  strap: 'letting out the strap',
  flare: 'a flare',
  relief: 'a relief',
  trim: 'a trim of the edge',
  pad: 'a thinner pad',
  'relocated-joint': 'moving the joint',
};
