import type { Caseload } from '../../records/caseload.js';
import type { Database } from '../connect.js';
import { eventOf, markerOf, measurementOf, skinCheckOf } from './row-records.js';

const emptyCaseload: Caseload = {
  children: [],
  measurements: [],
  markers: [],
  devices: [],
  events: [],
  jobs: [],
  skinChecks: [],
};

/** The current ground rows of these children (of all, without ids), in stable order. Not audited: callers are. */
export async function loadCaseload(db: Database, ids?: readonly string[]): Promise<Caseload> {
  if (ids?.length === 0) return emptyCaseload;
  const [children, measurements, markers, devices, events, jobs, skinChecks] = await Promise.all([
    db
      .selectFrom('children')
      .select('data')
      .$if(!!ids, (q) => q.where('id', 'in', ids!))
      .orderBy('id')
      .execute(),
    db
      .selectFrom('current_measurements')
      .selectAll()
      .$if(!!ids, (q) => q.where('child_id', 'in', ids!))
      .orderBy('child_id')
      .orderBy('date')
      .orderBy('measure')
      .orderBy('side')
      .orderBy('id')
      .execute(),
    db
      .selectFrom('current_markers')
      .selectAll()
      .$if(!!ids, (q) => q.where('child_id', 'in', ids!))
      .orderBy('child_id')
      .orderBy('date')
      .orderBy('id')
      .execute(),
    db
      .selectFrom('devices')
      .select('data')
      .$if(!!ids, (q) => q.where('child_id', 'in', ids!))
      .orderBy('child_id')
      .orderBy('id')
      .execute(),
    db
      .selectFrom('current_device_events')
      .selectAll()
      .$if(!!ids, (q) => q.where('child_id', 'in', ids!))
      .orderBy('device_id')
      .orderBy('date')
      .orderBy('id')
      .execute(),
    db
      .selectFrom('workshop_jobs')
      .select('data')
      .$if(!!ids, (q) => q.where('child_id', 'in', ids!))
      .orderBy('id')
      .execute(),
    db
      .selectFrom('current_skin_checks')
      .selectAll()
      .$if(!!ids, (q) => q.where('child_id', 'in', ids!))
      .orderBy('child_id')
      .orderBy('date')
      .orderBy('id')
      .execute(),
  ]);
  return {
    children: children.map((r) => r.data),
    measurements: measurements.map(measurementOf),
    markers: markers.map(markerOf),
    devices: devices.map((r) => r.data),
    events: events.map(eventOf),
    jobs: jobs.map((r) => r.data),
    skinChecks: skinChecks.map(skinCheckOf),
  };
}
