import { describe, expect, it } from 'vitest';
import type { DeviceForecast } from '../../src/forecast/contract.js';
import { shoeOverDevice } from '../../src/forecast/shoe-over-device.js';
import type { Measurement } from '../../src/records/records.js';
import type { Region } from '../../src/rules/fit-rule.js';

const TODAY = '2026-11-27';
/** A device whose foot is expected to be `footMm` long today. */
const worn = (region: Region, footMm: number, paceMmAYear: number, more: Partial<DeviceForecast> = {}) => ({
  region,
  side: 'left' as const,
  forecast: {
    outcome: 'forecast' as const,
    readingNeeded: null,
    room: [
      {
        series: { measure: 'foot_length' as const, side: 'left' as const },
        allowanceMm: 8,
        grownMm: 3,
        grownSdMm: 1,
        roomMm: 5,
        roomLowMm: 3,
        roomHighMm: 7,
        limitMm: footMm + 5,
        paceMmAYear,
      },
    ],
    ...more,
  },
});

describe('the shoe to look for with the device in it', () => {
  it('is a British size larger over a shell, half a one over an insole (common practice, no source)', () => {
    // By hand: 170 + 25.4/3 + 9/4 = 180.7 mm -> (180.7 + 15) / (20/3) = 29.4 -> EU 30; 170 + 25.4/6 + 9/4 = 176.5 -> 28.7 -> 29.
    expect(shoeOverDevice([worn('ankle-foot', 170, 9)], [], TODAY)?.sizes.EU).toBe('30');
    expect(shoeOverDevice([worn('foot', 170, 9)], [], TODAY)?.sizes.EU).toBe('29');
    // It fits for a quarter of a year: 178.5 + 91 x 40 / 365.25 = 188.4 mm -> 30.5 -> 31; on the day itself 30 would do.
    expect(shoeOverDevice([worn('ankle-foot', 170, 40)], [], TODAY)?.sizes.EU).toBe('31');
  });

  it('names the day on which the foot and the device outgrow it', () => {
    // EU 30 is made for 185 mm: (185 - 178.47) / 9 mm a year = 265 days.
    expect(shoeOverDevice([worn('ankle-foot', 170, 9)], [], TODAY)?.nextOn).toBe('2027-08-19');
    expect(shoeOverDevice([worn('ankle-foot', 170, 0.5)], [], TODAY)?.nextOn).toBeNull();
  });

  it('is bought for the larger foot', () => {
    const both = [worn('ankle-foot', 170, 9), worn('ankle-foot', 182, 9)];
    expect(shoeOverDevice(both, [], TODAY)).toEqual(shoeOverDevice([both[1]], [], TODAY));
  });

  it('is bought for a foot without a device, too, grown since its last reading', () => {
    const reading = (side: 'left' | 'right', date: string, value: number) =>
      ({ measure: 'foot_length', side, date, value }) as Measurement;
    const seen = [reading('right', '2025-11-27', 178), reading('right', '2026-05-27', 181)];
    // By hand: 181 + 9 x 184 / 365.25 + 9/4 = 187.8 mm -> (187.8 + 15) / (20/3) = 30.4 -> EU 31.
    expect(shoeOverDevice([worn('ankle-foot', 170, 9)], seen, TODAY)?.sizes.EU).toBe('31');
    // A reading of the braced foot itself is in the forecast already.
    const own = [reading('left', '2026-05-27', 190)];
    expect(shoeOverDevice([worn('ankle-foot', 170, 9)], own, TODAY)?.sizes.EU).toBe('30');
  });

  it.each([
    ['a brace not worn in a shoe', worn('trunk', 170, 9)],
    ['boots on a bar', worn('boots', 120, 20)],
    ['a foot never measured', worn('ankle-foot', 170, 9, { room: [] })],
    ['a blocked forecast', worn('ankle-foot', 170, 9, { outcome: 'blocked' })],
    [
      'a reading in question',
      worn('ankle-foot', 170, 9, {
        readingNeeded: { why: 'readings-too-old', measure: 'foot_length', side: 'left', date: null },
      }),
    ],
  ])('is not named for %s', (_, device) => {
    expect(shoeOverDevice([device], [], TODAY)).toBeNull();
  });
});
