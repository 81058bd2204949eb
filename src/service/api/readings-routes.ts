import { z } from 'zod';
import type { ServiceDeps } from '../dependencies.js';
import { type Api, clinical, routesOf, writing } from './api.js';
import { itemsOf, nothing, reason } from './schemas/common.js';
import {
  markerRecord,
  measurementRecord,
  newMarker,
  newMeasurement,
  newSkinCheck,
  newVisit,
  skinCheckRecord,
  visit,
} from './schemas/records.js';

export function readingsRoutes(api: Api, deps: ServiceDeps): void {
  const { get, ofRecord, write } = routesOf(api, deps, ['Readings']);

  get(
    '/children/:id/visits',
    clinical,
    'Visits (the readings of one date), newest first',
    { 200: itemsOf(visit) },
    async ({ id, actor }) => ({ items: await deps.store.visits.list(id, actor) }),
  );
  write(
    'POST /children/:id/visits',
    writing('measurements'),
    'Enter a visit; all its readings are stored or none',
    { body: newVisit, 201: itemsOf(measurementRecord) },
    async ({ tx, id, body, today, actor }) => ({ items: await tx.visits.add(id, body, today, actor) }),
  );

  ofRecord(
    'measurements',
    clinical,
    'Every current reading, by date',
    measurementRecord,
    (r) => r.measurements,
  );
  write(
    'POST /children/:id/measurements',
    writing('measurements'),
    'Enter one reading',
    { body: newMeasurement, 201: measurementRecord },
    async ({ tx, id, body: { date, observer, ...reading }, today, actor }) =>
      (await tx.visits.add(id, { date, observer, measurements: [reading] }, today, actor))[0],
  );

  ofRecord('markers', clinical, 'Maturity markers', markerRecord, (r) => r.markers);
  write(
    'POST /children/:id/markers',
    writing('markers'),
    'Record a maturity marker',
    { body: newMarker, 201: markerRecord },
    ({ tx, id, body, today, actor }) => tx.markers.add({ ...body, childId: id }, today, actor),
  );

  ofRecord(
    'skin-checks',
    clinical,
    'What the skin under a device looked like, by date',
    skinCheckRecord,
    (r) => r.skinChecks,
  );
  write(
    'POST /children/:id/skin-checks',
    writing('skinChecks'),
    'Record a look at the skin; redness that lasts or open skin is to be seen at once',
    { body: newSkinCheck, 201: skinCheckRecord },
    ({ tx, id, body, today, actor }) => tx.skinChecks.add({ ...body, childId: id }, today, actor),
  );
  write(
    'POST /skin-checks/:id/withdrawal',
    writing('skinChecks'),
    'Withdraw a skin check entered in error; it stays on record',
    { body: z.object({ reason }), 204: nothing },
    ({ tx, id, body, actor }) => tx.skinChecks.withdraw(id, body.reason, actor),
  );
}
