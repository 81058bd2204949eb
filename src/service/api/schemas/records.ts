import { z } from 'zod';
import { deviceEventRecord, deviceRecord, endReasons, workshopJobRecord } from '../../../records/device.js';
import { withoutDefaults } from '../../../records/field-limits.js';
import { childRecord, markerRecord, measurementRecord, note, reason } from '../../../records/records.js';
import { refuseMinutes, skinCheckFields, skinCheckRecord } from '../../../records/skin-check.js';
import { newVisit } from '../../../store/contract.js';
import { date, id, listOf } from './common.js';

export {
  correction,
  deviceVersion,
  eventCorrection,
  eventRevision,
  newVisit,
  revision,
  visit,
} from '../../../store/contract.js';
export { childRecord, deviceEventRecord, deviceRecord, markerRecord, measurementRecord, workshopJobRecord };

export const childChange = withoutDefaults(childRecord.omit({ id: true }));
export const deviceChange = withoutDefaults(deviceRecord.omit({ id: true, childId: true }));

export const newDevice = deviceRecord.omit({ id: true, childId: true }).extend({ id: id.optional() });
/** What may be chosen anew of the next device. */
export const nextDevice = withoutDefaults(
  deviceRecord.pick({
    family: true,
    side: true,
    footplate: true,
    castDate: true,
    allowancesMm: true,
    limitsMm: true,
    extensionRangeMm: true,
  }),
).nullish();
export const newEvent = deviceEventRecord.omit({ id: true, deviceId: true });
export const delivery = z.object({
  date: date.optional().describe('the day it was fitted; today when absent'),
  retireReplaced: z
    .enum(endReasons)
    .nullish()
    .describe('why the device whose place it takes ends; left out, that one stays in use'),
  note,
});
export const visitMove = z.object({ from: date, to: date, reason });
export const newMarker = markerRecord.omit({ id: true, childId: true });

export const newSkinCheck = skinCheckFields.omit({ id: true, childId: true }).superRefine(refuseMinutes);

export const newMeasurement = newVisit.shape.measurements.element.extend({
  date,
  observer: z.string().max(80).optional(),
});

export const fullRecord = z.object({
  child: childRecord,
  measurements: listOf(measurementRecord),
  markers: listOf(markerRecord),
  devices: listOf(deviceRecord),
  events: listOf(deviceEventRecord),
  jobs: listOf(workshopJobRecord),
  skinChecks: listOf(skinCheckRecord),
});
