import { type AssessmentContext, assessChild } from '../../src/forecast/assess-child.js';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import type { ChildRecord } from '../../src/records/caseload.js';
import { addDaysIso, type IsoDate } from '../../src/records/dates.js';
import { deviceEventRecord, deviceRecord } from '../../src/records/device.js';
import type { MeasureId, Side } from '../../src/records/measure.js';
import { childRecord, markerRecord, measurementRecord } from '../../src/records/records.js';
import type { SkinCheck } from '../../src/records/skin-check.js';
import { loadRules } from '../../src/rules/load-rules.js';

/** An invented child of a given age on a given day, put together step by step; every record goes through its schema. */
export function buildChild(today: IsoDate, ageYears: number, child: Record<string, unknown>) {
  let n = 0;
  const record = {
    child: childRecord.parse({ id: 'child-1', birthDate: addDaysIso(today, -ageYears * 365.25), ...child }),
    measurements: [] as ReturnType<typeof measurementRecord.parse>[],
    markers: [] as ReturnType<typeof markerRecord.parse>[],
    skinChecks: [] as SkinCheck[],
    devices: [] as ReturnType<typeof deviceRecord.parse>[],
    events: [] as ReturnType<typeof deviceEventRecord.parse>[],
    jobs: [] as never[],
  };
  const day = (monthsAgo: number) => addDaysIso(today, -Math.round(monthsAgo * 30.44));
  const builder = {
    record: record as ChildRecord,
    day,
    measured(measure: MeasureId, side: Side, monthsAgo: number, value: number, more = {}) {
      const id = `m${n++}`;
      record.measurements.push(
        measurementRecord.parse({
          id,
          childId: 'child-1',
          measure,
          side,
          value,
          date: day(monthsAgo),
          ...more,
        }),
      );
      return builder;
    },
    series(measure: MeasureId, side: Side, rows: readonly (readonly [monthsAgo: number, value: number])[]) {
      for (const [monthsAgo, value] of rows) builder.measured(measure, side, monthsAgo, value);
      return builder;
    },
    device(family: string, side: string, castMonthsAgo: number, more: Record<string, unknown> = {}) {
      record.devices.push(
        deviceRecord.parse({
          id: `d${n++}`,
          childId: 'child-1',
          family,
          side,
          castDate: day(castMonthsAgo),
          fittedDate: castMonthsAgo > 0.7 ? day(castMonthsAgo - 0.7) : null,
          ...more,
        }),
      );
      return builder;
    },
    event(kind: string, monthsAgo: number, more: Record<string, unknown> = {}) {
      const deviceId = record.devices[record.devices.length - 1].id;
      record.events.push(
        deviceEventRecord.parse({ id: `e${n++}`, deviceId, date: day(monthsAgo), kind, ...more }),
      );
      return builder;
    },
    marker(kind: string, monthsAgo: number, value = 0) {
      record.markers.push(
        markerRecord.parse({ id: `k${n++}`, childId: 'child-1', date: day(monthsAgo), kind, value }),
      );
      return builder;
    },
    assess(more: Partial<AssessmentContext> = {}) {
      return assessChild(record, contextOn(today, more));
    },
  };
  return builder;
}

export const contextOn = (today: IsoDate, more: Partial<AssessmentContext> = {}): AssessmentContext => ({
  today,
  model: loadGrowthModel(),
  rules: loadRules(),
  seed: 7,
  draws: 1000,
  ...more,
});
