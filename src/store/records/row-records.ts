import type { DeviceEvent } from '../../records/device.js';
import type { MaturityMarker, Measurement } from '../../records/records.js';
import type { SkinCheck } from '../../records/skin-check.js';
import type { Tables } from '../tables.js';

/** Row to record and back, for the append-only tables. */
type Row<T extends keyof Tables> = { [K in keyof Tables[T]]: unknown };

export function measurementOf(row: Row<'measurements'>): Measurement {
  const r = row as unknown as Measurement & { child_id: string; technical_error: number | null };
  return {
    id: r.id,
    childId: r.child_id,
    measure: r.measure,
    side: r.side,
    value: r.value,
    date: r.date,
    method: r.method,
    observer: r.observer,
    technicalError: r.technical_error,
    entered: r.entered,
    extra: r.extra,
  };
}

export const measurementColumns = (m: Measurement) => ({
  id: m.id,
  child_id: m.childId,
  measure: m.measure,
  side: m.side,
  value: m.value,
  date: m.date,
  method: m.method,
  observer: m.observer,
  technical_error: m.technicalError,
  entered: m.entered,
  extra: JSON.stringify(m.extra),
});

export function markerOf(row: Row<'markers'>): MaturityMarker {
  const r = row as unknown as MaturityMarker & { child_id: string; sd_years: number | null };
  return { id: r.id, childId: r.child_id, date: r.date, kind: r.kind, value: r.value, sdYears: r.sd_years };
}

export const markerColumns = (m: MaturityMarker) => ({
  id: m.id,
  child_id: m.childId,
  date: m.date,
  kind: m.kind,
  value: m.value,
  sd_years: m.sdYears,
});

/** Rows of before a reason was asked for have none; the table is append-only, so it is filled in here. */
export const eventOf = (row: Row<'device_events'>): DeviceEvent => ({
  endReason: null,
  ...(row.data as Omit<DeviceEvent, 'endReason'>),
});

export const eventColumns = (e: DeviceEvent, childId: string) => ({
  id: e.id,
  child_id: childId,
  device_id: e.deviceId,
  date: e.date,
  data: JSON.stringify(e),
});

export const skinCheckOf = (row: Row<'skin_checks'>): SkinCheck => row.data as SkinCheck;

export const skinCheckColumns = (c: SkinCheck) => ({
  id: c.id,
  child_id: c.childId,
  device_id: c.deviceId,
  date: c.date,
  state: c.state,
  data: JSON.stringify(c),
});
