/** Devices, what is recorded of them, and their jobs in the workshop. */

import { z } from 'zod';
import { deviceEventRecord, deviceRecord } from '../../records/device.js';
import { withoutDefaults } from '../../records/field-limits.js';
import { reason } from '../../records/records.js';
import { revised } from './readings.js';

/** A state of a device's record: who left it so and when. */
export const deviceVersion = z.object({
  version: z.number().int(),
  device: deviceRecord,
  by: z.string().nullable().describe('null: an event did it'),
  at: z.iso.datetime().nullable().describe('null: the first'),
});
export type DeviceVersion = Readonly<z.infer<typeof deviceVersion>>;

/** What is not said is nothing. */
export type NewEvent = Omit<z.input<typeof deviceEventRecord>, 'id'>;

export const eventRevision = z.object({ event: deviceEventRecord, ...revised });
export type EventRevision = Readonly<z.infer<typeof eventRevision>>;

/** What is left out stays as it was recorded. */
export const eventCorrection = withoutDefaults(
  deviceEventRecord.pick({
    date: true,
    measure: true,
    side: true,
    changeMm: true,
    adjustment: true,
    verdict: true,
    hipAngleLeft: true,
    hipAngleRight: true,
    note: true,
  }),
).extend({ reason });
export type EventCorrection = Readonly<z.infer<typeof eventCorrection>>;
