import { readNumber } from '../../exchange/csv/read-number.js';
import type { Imagined } from '../../forecast/imagined-record.js';
import { MOST_ROOM_MM } from '../../records/check/device-faults.js';
import { type IsoDate, isIsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import { type MeasureId, measures, type Series, seriesOf } from '../../records/measure.js';
import { dimensionLimits } from '../../rules/dimension-limits.js';
import type { FamilyRule } from '../../rules/fit-rule.js';
import { furthest } from '../../service/asked-dates.js';
import type { Fields } from '../parts/pages-of.js';
import { typedSize } from './typed-size.js';

/** 'Knee joint height' of 'Knee joint height (tibiale)'. */
export const shortLabel = (m: MeasureId) => measures[m].label.replace(/ \(.*\)$/, '');

export const gainField = (m: MeasureId) => `gain.${m}`;
export const roomField = (m: MeasureId) => `room.${m}`;
export const readingField = (s: Series) => `reading.${s.measure}.${s.side}`;

export type Dimension = ReturnType<typeof dimensionsOf>[number];
export type ReadWhatIf = ReturnType<typeof readWhatIf>;

/** What limits this device, with the series it is read in, in the rule's order, and stature, which says most of growth to come. */
export function dimensionsOf(rule: FamilyRule, device: Device, birthDate: IsoDate) {
  const limits = dimensionLimits(rule, { ...device, limitsMm: {} }, [], { birthDate, measured: null });
  return [...new Set(limits.map((l) => l.series.measure))].map((measure) => {
    const own = limits.filter((l) => l.series.measure === measure);
    return { measure, usualMm: own[0].baseMm, series: own.map((l) => l.series) };
  });
}

/** What was typed into the form, each field that cannot be with what would be accepted. */
export function readWhatIf(typed: Fields, dimensions: readonly Dimension[], today: IsoDate) {
  const errors: Record<string, string> = {};
  const how: Imagined['how'] = typed.how === 'new-cast' ? 'new-cast' : 'keep';
  const latest = furthest(today);
  /** What stands in a field that is filled in, or null and what would be accepted. */
  const filled = <T>(name: string, read: (text: string) => T | null, accepted: string): T | null => {
    const text = typed[name]?.trim() ?? '';
    const value = text === '' ? null : read(text);
    if (text !== '' && value === null) errors[name] = accepted;
    return value;
  };
  const day = (text: string) => (isIsoDate(text) && text >= today && text <= latest ? text : null);
  const on = filled('on', day, `a day from ${today} to ${latest} as YYYY-MM-DD`) ?? today;
  const least = how === 'keep' ? -MOST_ROOM_MM : 0;
  const roomMm: Partial<Record<MeasureId, number>> = {};
  for (const { measure } of dimensions) {
    const name = how === 'keep' ? gainField(measure) : roomField(measure);
    const room = (text: string) => between(readNumber(text), [least, MOST_ROOM_MM]);
    const mm = filled(name, room, `a number of mm from ${least} to ${MOST_ROOM_MM}`);
    if (mm !== null) roomMm[measure] = mm;
  }
  const readings = readSeries(dimensions).flatMap((series) => {
    const { plausible, unit } = measures[series.measure];
    const size = (text: string) => between(typedSize(text, series.measure, 'mm'), plausible);
    const inCm = unit === 'mm' ? '; in cm write the unit behind it' : '';
    const value = filled(readingField(series), size, `${plausible.join(' to ')} ${unit}${inCm}`);
    return value === null ? [] : [{ series, value }];
  });
  return {
    imagined: { on, how, roomMm, readings },
    typed,
    errors,
    // Something was typed, or a new cast asked for.
    asks: how === 'new-cast' || Object.keys(roomMm).length > 0 || readings.length > 0,
  };
}

const between = (value: number | null, [low, high]: readonly [number, number]): number | null =>
  value !== null && value >= low && value <= high ? value : null;

/** Series a visit can be imagined in: what limits the device, on both sides, and stature. */
export function readSeries(dimensions: readonly Dimension[]): Series[] {
  const wanted = new Set<MeasureId>([...dimensions.map((d) => d.measure), 'stature']);
  return [...wanted].flatMap((measure) => seriesOf(measure));
}
