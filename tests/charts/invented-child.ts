/**
 * One invented child for the charts' tests and snapshots: straight-line growth made up here, no model and no
 * reference, so that a snapshot changes only when a chart does.
 */
import type { CentileAt } from '../../src/charts/centile-rows.js';
import type { DeviceForecast } from '../../src/forecast/contract.js';
import type { ChildPosterior } from '../../src/growth/contract.js';
import type { ChildRecord } from '../../src/records/caseload.js';
import { addDaysIso, dayNumber } from '../../src/records/dates.js';
import { deviceRecord } from '../../src/records/device.js';
import { childRecord, measurementRecord } from '../../src/records/records.js';

export const today = '2026-06-15';
const mmADay = 10 / 365.25;
const sizeAt = (day: number, side: string) =>
  171 + (day - dayNumber('2023-01-10')) * mmADay + (side === 'right' ? -3 : 0);

const dates = [
  '2023-01-10',
  '2023-07-04',
  '2023-12-12',
  '2024-05-21',
  '2025-10-02',
  '2026-02-10',
  '2026-06-10',
];
const noise = [1, -1, 0.5, 1.5, -1, 0, 1];

export const record: ChildRecord = {
  child: childRecord.parse({ id: 'c1', name: 'Invented Child', birthDate: '2018-03-02', sex: 'female' }),
  measurements: (['left', 'right'] as const).flatMap((side) =>
    dates.map((date, i) =>
      measurementRecord.parse({
        id: `${side}${i}`,
        childId: 'c1',
        measure: 'foot_length',
        side,
        value: Math.round(sizeAt(dayNumber(date), side) + noise[i] + (side === 'right' && i === 2 ? -14 : 0)),
        date,
      }),
    ),
  ),
  markers: [],
  skinChecks: [],
  devices: (['left', 'right'] as const).map((side) =>
    deviceRecord.parse({
      id: `afo-${side}`,
      childId: 'c1',
      family: 'solid-afo',
      side,
      castDate: '2026-01-20',
      fittedDate: '2026-02-10',
    }),
  ),
  events: [],
  jobs: [],
};

export const posterior = {
  suspicions: [{ measurementId: 'right2', probability: 0.97, expected: 178, expectedSd: 2 }],
  knows: (measure) => measure === 'foot_length',
  predict(series, days) {
    const mean = Float64Array.from(days, (d) => sizeAt(d, series.side));
    const sd = Float64Array.from(days, (d) => 1 + Math.max(0, d - dayNumber('2026-02-10')) / 130);
    const z: Record<string, number> = { 0.1: -1.2816, 0.5: 0, 0.9: 1.2816 };
    return { days, mean, sd, quantile: (p) => mean.map((m, i) => m + z[p] * sd[i]) };
  },
} as Partial<ChildPosterior> as ChildPosterior;

export const forecasts: readonly DeviceForecast[] = (['left', 'right'] as const).map((side, i) => ({
  deviceId: `afo-${side}`,
  childId: 'c1',
  family: 'solid-afo',
  today,
  outcome: 'forecast',
  explanation: '',
  p10: addDaysIso('2026-10-05', i * 40),
  p50: addDaysIso('2026-12-20', i * 40),
  p90: addDaysIso('2027-04-02', i * 40),
  dates: [],
  probabilityOutgrown: [],
  drivers: [{ series: { measure: 'foot_length', side }, share: 1 }],
  room: [
    {
      series: { measure: 'foot_length', side },
      allowanceMm: 8,
      grownMm: 4,
      grownSdMm: 1,
      roomMm: 4,
      roomLowMm: 2.6,
      roomHighMm: 5.4,
      limitMm: sizeAt(dayNumber('2026-01-20'), side) + 8,
    },
  ],
  probabilityOutgrownNow: 0,
  modelName: 'straight line',
  modelVersion: '0',
  seed: 1,
}));

/** Straight lines round a made-up median; not a growth reference. */
export const centileAt: CentileAt = (sex, _measure, ageYears, centile) =>
  ageYears > 18
    ? null
    : (122 + 10.4 * ageYears + (sex === 'male' ? 3 : 0)) *
      (1 +
        0.055 *
          ({ 3: -1.881, 10: -1.282, 25: -0.674, 50: 0, 75: 0.674, 90: 1.282, 97: 1.881 }[centile] ?? 0));
