import { z } from 'zod';
import type { AboutField } from '../../../records/about-field.js';
import { childFields } from '../../../records/child-fields.js';
import * as device from '../../../records/device.js';
import { withoutDefaults } from '../../../records/field-limits.js';
import {
  deviceFields,
  eventFields,
  jobFields,
  markerFields,
  measurementFields,
  skinFields,
} from '../../../records/record-fields.js';
import * as records from '../../../records/records.js';
import { refuseMinutes, skinCheckFields } from '../../../records/skin-check.js';
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

/** A record as the document tells it: each field by the words that forms and files have for it. */
const told = <T extends z.ZodObject>(record: T, about: Readonly<Record<string, AboutField>>): T =>
  record.extend(
    Object.fromEntries(
      Object.entries<z.ZodType>(record.shape).flatMap(([name, field]) => {
        const { label, hint } = about[name] ?? {};
        return label ? [[name, field.describe(hint ? `${label} (${hint})` : label)]] : [];
      }),
    ),
  ) as unknown as T;

const { endReasons } = device;
const { note, reason } = records;
export const childRecord = told(records.childRecord, childFields);
export const measurementRecord = told(records.measurementRecord, measurementFields);
export const markerRecord = told(records.markerRecord, markerFields);
export const deviceRecord = told(device.deviceRecord, deviceFields);
export const deviceEventRecord = told(device.deviceEventRecord, eventFields);
export const workshopJobRecord = told(device.workshopJobRecord, jobFields);
const skinCheck = told(skinCheckFields, skinFields);
export const skinCheckRecord = skinCheck.superRefine(refuseMinutes);

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

export const newSkinCheck = skinCheck.omit({ id: true, childId: true }).superRefine(refuseMinutes);

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
