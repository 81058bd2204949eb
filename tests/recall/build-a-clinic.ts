import type { DeviceForecast, Flag, ForecastOutcome } from '../../src/forecast/contract.js';
import type { RecallEntry } from '../../src/recall/contract.js';
import { buildRecallList, type RecallListOptions } from '../../src/recall/decide/build-recall-list.js';
import type { ChildRecord } from '../../src/records/caseload.js';
import { addDaysIso, type IsoDate } from '../../src/records/dates.js';
import { type Device, deviceEventRecord, deviceRecord } from '../../src/records/device.js';
import { childRecord, measurementRecord } from '../../src/records/records.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { estimateTurnaround } from '../../src/turnaround/estimate-turnaround.js';

export const today: IsoDate = '2026-06-01';
export const rules = loadRules();
export const turnaround = (family: string) => estimateTurnaround([], family, today);

/** A forecast whose chance rises linearly from 0 at `fromDay` to 1 at `toDay` (days from today), weekly to 3 years. */
export function rampForecast(
  deviceId: string,
  fromDay: number,
  toDay: number,
  outcome: ForecastOutcome = 'forecast',
): DeviceForecast {
  const days = Array.from({ length: 157 }, (_, i) => i * 7);
  const chance = (d: number) => Math.min(1, Math.max(0, (d - fromDay) / (toDay - fromDay)));
  const at = (p: number) => addDaysIso(today, fromDay + p * (toDay - fromDay));
  const curves = outcome === 'forecast' || outcome === 'already-outgrown' || outcome === 'beyond-horizon';
  return {
    deviceId,
    childId: deviceId.split('/')[0],
    family: 'solid-afo',
    today,
    outcome,
    explanation: '',
    p10: curves ? at(0.1) : null,
    p50: curves ? at(0.5) : null,
    p90: curves ? at(0.9) : null,
    dates: curves ? days.map((d) => addDaysIso(today, d)) : [],
    probabilityOutgrown: curves ? days.map(chance) : [],
    drivers: [{ series: { measure: 'foot_length', side: 'left' }, share: 1 }],
    room: [],
    probabilityOutgrownNow: chance(0),
    modelName: 'test',
    modelVersion: '0',
    seed: 1,
  };
}

export interface TestChild {
  readonly id: string;
  readonly devices?: readonly (Partial<Device> & { id: string })[];
  readonly measuredDaysAgo?: number | null;
  readonly insensateSkin?: boolean;
  readonly palliative?: boolean;
  readonly birthDate?: IsoDate;
  readonly jobs?: ChildRecord['jobs'];
}

/** A child with one worn left AFO unless told otherwise, measured 30 days ago. */
export function testRecord(child: TestChild): ChildRecord {
  const measured = child.measuredDaysAgo === undefined ? 30 : child.measuredDaysAgo;
  return {
    child: childRecord.parse({
      id: child.id,
      birthDate: child.birthDate ?? '2019-06-01',
      sex: 'female',
      insensateSkin: child.insensateSkin ?? false,
      palliative: child.palliative ?? false,
    }),
    measurements:
      measured === null
        ? []
        : [
            measurementRecord.parse({
              id: `${child.id}/m1`,
              childId: child.id,
              measure: 'foot_length',
              side: 'left',
              value: 170,
              date: addDaysIso(today, -measured),
            }),
          ],
    markers: [],
    skinChecks: [],
    devices: (child.devices ?? [{ id: `${child.id}/d1` }]).map((d) =>
      deviceRecord.parse({
        childId: child.id,
        family: 'solid-afo',
        side: 'left',
        castDate: addDaysIso(today, -200),
        fittedDate: addDaysIso(today, -179),
        ...d,
      }),
    ),
    events: [],
    jobs: child.jobs ?? [],
  };
}

/** The chance rises evenly from one day to another, days from today; past weeks are told too. */
export function rising(
  deviceId: string,
  from: number,
  to: number,
  more: Partial<DeviceForecast> = {},
): DeviceForecast {
  const days = Array.from({ length: 300 }, (_, i) => (i - 60) * 7);
  return {
    ...rampForecast(deviceId, from, to),
    dates: days.map((d) => addDaysIso(today, d)),
    probabilityOutgrown: days.map((d) => Math.min(1, Math.max(0, (d - from) / (to - from)))),
    ...more,
  };
}
export const far = (deviceId: string) => rising(deviceId, 900, 1200);

export const flag = (more: Partial<Flag>): Flag =>
  ({ id: 'skin-open', severity: 'act-now', deviceId: null, series: null, ...more }) as Flag;

/** A child's visit with these forecasts and flags. */
export function entryOf(
  record: ChildRecord,
  forecasts: DeviceForecast[],
  flags: Flag[] = [],
  options: Partial<RecallListOptions> = {},
): RecallEntry {
  const assessment = { childId: record.child.id, forecasts, flags };
  const list = buildRecallList([assessment], [record], turnaround, { today, rules, ...options });
  return [...list.entries, ...list.notDue][0];
}

export const event = (kind: string, more: Record<string, unknown> = {}) =>
  deviceEventRecord.parse({ id: 'e', deviceId: 'a/d1', date: addDaysIso(today, -2), kind, ...more });
