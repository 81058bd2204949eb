import { z } from 'zod';
import { deviceEventRecord, deviceRecord, workshopJobRecord } from '../../../records/device.js';
import { childRecord, markerRecord, measurementRecord } from '../../../records/records.js';
import { refuseMinutes, skinCheckFields, skinCheckRecord } from '../../../records/skin-check.js';
import { date, id, listOf, reason, stamp } from './common.js';

export { childRecord, deviceEventRecord, deviceRecord, markerRecord, measurementRecord, workshopJobRecord };

/** Without defaults, so that a change touches only what it names. */
const withoutDefaults = <T extends z.ZodObject>(schema: T) =>
  z.strictObject(
    Object.fromEntries(
      Object.entries(schema.shape).map(([key, field]) => [
        key,
        (field instanceof z.ZodDefault ? (field.unwrap() as z.ZodType) : (field as z.ZodType)).optional(),
      ]),
    ) as { [K in keyof T['shape']]: z.ZodOptional<z.ZodType<z.output<T['shape'][K]>>> },
  );

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
export const newMarker = markerRecord.omit({ id: true, childId: true });

export const newSkinCheck = skinCheckFields.omit({ id: true, childId: true }).superRefine(refuseMinutes);

/** Of a reading, mm or kg; what is plausible for its measure stands in its check. */
const MOST = 10_000;

export const newVisit = z.object({
  date,
  observer: z.string().max(80).optional(),
  method: z.string().max(80).optional(),
  measurements: z
    .array(
      z.object({
        measure: measurementRecord.shape.measure,
        side: measurementRecord.shape.side,
        value: z.number().positive().max(MOST).describe('mm; kg for weight'),
        method: z.string().max(80).optional(),
        technicalError: z.number().positive().max(MOST).nullish(),
        entered: z.string().max(80).optional().describe('what was typed, with its unit'),
      }),
    )
    .min(1)
    .max(100),
});
export const visit = z.object({ date, measurements: listOf(measurementRecord) });

export const newMeasurement = newVisit.shape.measurements.element.extend({
  date,
  observer: z.string().max(80).optional(),
});

export const correction = z.object({
  value: z.number().positive().max(MOST).optional(),
  side: measurementRecord.shape.side.optional(),
  measure: measurementRecord.shape.measure.optional(),
  date: date.optional(),
  withdrawn: z.boolean().optional().describe('true: entered in error, counts no more'),
  reason,
});
export const revision = z.object({
  measurement: measurementRecord,
  revision: z.number().int(),
  withdrawn: z.boolean(),
  reason: z.string(),
  by: z.string(),
  at: stamp,
});
/** What is left out stays as it was recorded. */
export const eventCorrection = withoutDefaults(
  deviceEventRecord.pick({
    date: true,
    measure: true,
    side: true,
    changeMm: true,
    adjustment: true,
    verdict: true,
    note: true,
  }),
).extend({ reason });
const dated = { reason: z.string(), by: z.string(), at: stamp };
export const eventRevision = z.object({
  event: deviceEventRecord,
  revision: z.number().int(),
  withdrawn: z.boolean(),
  ...dated,
});
export const deviceVersion = z.object({
  version: z.number().int(),
  device: deviceRecord,
  by: z.string().nullable().describe('null: an event did it'),
  at: stamp.nullable(),
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
