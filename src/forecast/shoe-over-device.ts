import { addDaysIso, DAYS_A_YEAR, dayNumber, type IsoDate } from '../records/dates.js';
import type { Device } from '../records/device.js';
import type { Measurement } from '../records/records.js';
import { type ShoeSizes, shoeFootLengthsMm, shoeSizesFor, shoeStepMm } from '../records/shoe-size.js';
import type { Region } from '../rules/fit-rule.js';
import { type DeviceForecast, saysNothing } from './contract.js';

/**
 * What a device adds to the foot a shoe is chosen for, mm: half a British size for an insole, a whole one for a shell
 * with its heel and lining (common practice, no source). Boots on a bar and a raised shoe are shoes themselves.
 */
const ADDED_MM: Readonly<Partial<Record<Region, number>>> = {
  foot: shoeStepMm('UK') / 2,
  'ankle-foot': shoeStepMm('UK'),
  'long-leg': shoeStepMm('UK'),
};
/** A shoe is looked for that still fits after so many days (common practice, no source). */
const FITS_FOR_DAYS = 91;
/** Slower growth, and a date further off, says nothing of the next shoe. */
const LEAST_PACE_MM_A_YEAR = 1;
const FURTHEST_DAYS = 730;

export interface ShoeOverDevice {
  readonly sizes: ShoeSizes;
  /** When the size after it is likely; null where growth is too slow to say. */
  readonly nextOn: IsoDate | null;
}

/**
 * The shoe size to look for with the device worn in it, from the foot's forecast, and when the next is likely; null
 * where no foot was forecast that can be relied on. Of several devices the larger foot decides: shoes are bought in pairs.
 */
export function shoeOverDevice(
  worn: readonly {
    readonly region: Region;
    readonly side: Device['side'];
    readonly forecast: Pick<DeviceForecast, 'outcome' | 'room' | 'readingNeeded'>;
  }[],
  readings: readonly Measurement[],
  today: IsoDate,
): ShoeOverDevice | null {
  const braced = worn.flatMap(({ region, forecast }) => {
    const added = ADDED_MM[region];
    if (added === undefined || saysNothing(forecast) || forecast.readingNeeded) return [];
    return forecast.room
      .filter(({ series }) => series.measure === 'foot_length')
      .map(({ limitMm, roomMm, paceMmAYear }) => ({
        lengthMm: limitMm - roomMm + added,
        paceMmADay: Math.max(0, paceMmAYear ?? 0) / DAYS_A_YEAR,
      }));
  });
  if (braced.length === 0) return null;
  const sides = new Set(worn.flatMap(({ side }) => (side === 'both' ? ['left', 'right'] : [side])));
  const feet = [
    ...braced,
    ...otherFoot(readings, sides, Math.max(...braced.map((f) => f.paceMmADay)), today),
  ];
  const largest = feet.reduce((a, b) => (b.lengthMm > a.lengthMm ? b : a));
  const sizes = shoeSizesFor(largest.lengthMm + largest.paceMmADay * FITS_FOR_DAYS);
  const [madeForMm] = shoeFootLengthsMm('EU', Number(sizes.EU));
  const days = Math.round((madeForMm - largest.lengthMm) / largest.paceMmADay);
  const foreseen = largest.paceMmADay * DAYS_A_YEAR >= LEAST_PACE_MM_A_YEAR && days <= FURTHEST_DAYS;
  return { sizes, nextOn: foreseen ? addDaysIso(today, days) : null };
}

/** A foot without a device goes into the same pair of shoes: its last reading, grown since as the other foot does. */
function otherFoot(
  readings: readonly Measurement[],
  braced: ReadonlySet<string>,
  paceMmADay: number,
  today: IsoDate,
): { lengthMm: number; paceMmADay: number }[] {
  const last = readings
    .filter((m) => m.measure === 'foot_length' && !braced.has(m.side))
    .reduce<Measurement | null>((a, b) => (a !== null && a.date >= b.date ? a : b), null);
  if (last === null) return [];
  return [{ lengthMm: last.value + paceMmADay * (dayNumber(today) - dayNumber(last.date)), paceMmADay }];
}
