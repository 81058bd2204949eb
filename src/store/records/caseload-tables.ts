import type { Caseload, CaseloadPart } from '../../records/caseload.js';
import type { Device, DeviceEvent, WorkshopJob } from '../../records/device.js';
import type { Child, MaturityMarker, Measurement } from '../../records/records.js';
import type { SkinCheck } from '../../records/skin-check.js';
import { inCamelCase } from '../record-of.js';

/** A row as the database gives it; what it holds is said by the table it comes from. */
export type Row = Readonly<Record<string, unknown>>;
export type Revised = 'measurements' | 'markers' | 'device_events' | 'skin_checks';
export type InPlace = 'children' | 'devices' | 'workshop_jobs';

/** Where one part of a caseload lies: its table, the rows of it that count and their order, row to record and back. */
export interface CaseloadTable<T, K extends string = Revised | InPlace> {
  readonly table: K;
  /** As a refusal and, with hyphens, the access log call one of its records. */
  readonly name: string;
  /** The table, or the view of the revisions that count. */
  readonly current: string;
  readonly childKey: 'id' | 'child_id';
  readonly order: readonly string[];
  /** The columns that `of` reads. */
  readonly reads: readonly string[];
  readonly of: (row: Row) => T;
  readonly columns: (record: T, childId: string) => Readonly<Record<string, unknown>>;
}

/** What a child is found by: lower-case name, for sorting too. */
const nameKey = (child: Child): string => (child.name || child.id).toLowerCase();

const data = <T>(row: Row): T => row.data as T;

/** Changed in place: the record is one column, beside it what it is found by. */
const inPlace = <T extends { id: string }, K extends InPlace>(
  table: K,
  name: string,
  order: readonly string[],
  found: (record: T, childId: string) => object,
): CaseloadTable<T, K> => ({
  table,
  name,
  current: table,
  childKey: table === 'children' ? 'id' : 'child_id',
  order,
  reads: ['data'],
  of: data<T>,
  columns: (record, childId) => ({
    id: record.id,
    ...found(record, childId),
    data: JSON.stringify(record),
  }),
});

/** Never changed: a correction is the next revision of the same id. */
const revised = <T extends { id: string; date: string }, K extends Revised>(
  table: K,
  name: string,
  order: readonly string[],
  of: (row: Row) => T,
  columns: (record: T) => object,
  reads: readonly string[] = ['data'],
): CaseloadTable<T, K> => ({
  table,
  name,
  current: `current_${table}`,
  childKey: 'child_id',
  order,
  reads,
  of,
  columns: (record, childId) => ({
    ...columns(record),
    id: record.id,
    child_id: childId,
    date: record.date,
  }),
});

export const childrenTable = inPlace<Child, 'children'>('children', 'child', ['id'], (child) => ({
  name_key: nameKey(child),
  birth_date: child.birthDate,
  status: child.status,
}));

export const devicesTable = inPlace<Device, 'devices'>(
  'devices',
  'device',
  ['child_id', 'id'],
  (device, childId) => ({
    child_id: childId,
    family: device.family,
    status: device.status,
  }),
);

export const workshopJobsTable = inPlace<WorkshopJob, 'workshop_jobs'>(
  'workshop_jobs',
  'workshop job',
  ['id'],
  (job, childId) => ({ child_id: childId, device_id: job.deviceId, status: job.status }),
);

/** A column a field: what the field technicalError holds stands in technical_error. */
const byColumns = <T extends { id: string; date: string }, K extends Revised>(
  table: K,
  name: string,
  order: readonly string[],
  columns: readonly string[],
): CaseloadTable<T, K> => {
  const fields = columns.map(inCamelCase);
  const of = (row: Row): T => {
    const record: Record<string, unknown> = {};
    for (let i = 0; i < columns.length; i++) record[fields[i]] = row[columns[i]];
    return record as T;
  };
  const columnsOf = (record: T): object => {
    const row: Record<string, unknown> = {};
    for (let i = 0; i < columns.length; i++) {
      const value = record[fields[i] as keyof T];
      row[columns[i]] = typeof value === 'object' && value !== null ? JSON.stringify(value) : value;
    }
    return row;
  };
  return revised<T, K>(table, name, order, of, columnsOf, columns);
};

export const measurementsTable = byColumns<Measurement, 'measurements'>(
  'measurements',
  'measurement',
  ['child_id', 'date', 'measure', 'side', 'id'],
  [
    ...['id', 'child_id', 'measure', 'side', 'value', 'date', 'method', 'observer'],
    ...['technical_error', 'entered', 'extra'],
  ],
);

export const markersTable = byColumns<MaturityMarker, 'markers'>(
  'markers',
  'marker',
  ['child_id', 'date', 'id'],
  ['id', 'child_id', 'date', 'kind', 'value', 'sd_years'],
);

export const eventsTable = revised<DeviceEvent, 'device_events'>(
  'device_events',
  'device event',
  ['device_id', 'date', 'id'],
  // Rows of before a reason was asked for have none; the table is append-only, so it is filled in here.
  (row) => ({ endReason: null, ...data<Omit<DeviceEvent, 'endReason'>>(row) }),
  (event) => ({ device_id: event.deviceId, data: JSON.stringify(event) }),
);

export const skinChecksTable = revised<SkinCheck, 'skin_checks'>(
  'skin_checks',
  'skin check',
  ['child_id', 'date', 'id'],
  data<SkinCheck>,
  (check) => ({ device_id: check.deviceId, state: check.state, data: JSON.stringify(check) }),
);

export const caseloadTables = {
  children: childrenTable,
  measurements: measurementsTable,
  markers: markersTable,
  devices: devicesTable,
  events: eventsTable,
  jobs: workshopJobsTable,
  skinChecks: skinChecksTable,
} as const satisfies { [P in CaseloadPart]: CaseloadTable<Caseload[P][number]> };

/** Does it hold revisions, or records that change in place? */
export const isRevised = (table: Revised | InPlace): table is Revised =>
  table !== 'children' && table !== 'devices' && table !== 'workshop_jobs';
