import { expect, it } from 'vitest';
import { dimensionRoom } from '../../src/forecast/device/dimension-room.js';
import { holdStopped } from '../../src/forecast/device/hold-stopped.js';
import { dayNumber } from '../../src/records/dates.js';
import { type Series, seriesKey } from '../../src/records/measure.js';
import type { DimensionLimit } from '../../src/rules/dimension-limits.js';

const series: Series = { measure: 'foot_length', side: 'left' };
const key = seriesKey(series);
const cast = dayNumber('2026-01-01');
const DRAWS = 10;
/** Ten futures: 170 mm at the cast, 0 to 9 mm more on day 100, and another 10 mm in the 182 days after. */
const futures = {
  draws: DRAWS,
  days: [cast, cast + 100, cast + 282],
  paths: new Map([
    [key, Float64Array.from(Array.from({ length: DRAWS }, (_, i) => [170, 170 + i, 180 + i]).flat())],
  ]),
};
const room = (limit: Pick<DimensionLimit, 'kind' | 'baseMm'>, deviationMm = 0) => {
  const whole = { series, ...limit, toleranceMm: 1.5, gains: [], budgets: [], liftedBy: [] };
  const deviation = new Float64Array(DRAWS).fill(deviationMm);
  return dimensionRoom(whole as never, futures, 0, deviation, cast + 100, cast + 100);
};

it('room is the limit less what has grown, its tenth and ninth tenth beside it, by hand', () => {
  const growth = room({ kind: 'growth', baseMm: 12 });
  // 12 - 0 to 12 - 9 mm.
  expect(growth).toMatchObject({ roomLowMm: 3, roomHighMm: 11, allowanceMm: 12, limitMm: 182 });
  expect(growth.roomMm).toBeCloseTo(7.5, 10);
  expect(growth.grownMm).toBeCloseTo(4.5, 10);
  // 10 mm in 182 days.
  expect(growth.paceMmAYear).toBeCloseTo((10 * 365.25) / 182, 10);
});

it('a size that is the limit counts from the size, and a device that has more room than its kind has more', () => {
  const size = room({ kind: 'size', baseMm: 185 });
  expect(size).toMatchObject({ roomLowMm: 6, roomHighMm: 14, allowanceMm: 15, limitMm: 185 });
  expect(room({ kind: 'growth', baseMm: 12 }, 2).roomMm).toBeCloseTo(9.5, 10);
});

it('a series whose halt is proved stays as it was read; one that is not goes on', () => {
  const held = (proved: boolean) =>
    [...holdStopped(futures, new Map([[key, { day: cast + 50, proved }]])).paths.get(key)!].slice(-3);
  expect(held(false)).toEqual([170, 179, 189]);
  expect(held(true)).toEqual([170, 174.5, 174.5]);
});
