/** Children as they are looked for and kept. */

import { z } from 'zod';
import type { DeviceForecast } from '../../forecast/contract.js';
import { deviceRecord } from '../../records/device.js';
import { type Child, childRecord, isoDateText } from '../../records/records.js';

const maybeDate = isoDateText.nullable();

const forecastSummary = z.object({
  deviceId: z.string(),
  family: z.string(),
  side: deviceRecord.shape.side,
  outcome: z.string() as unknown as z.ZodType<DeviceForecast['outcome']>,
  p10: maybeDate,
  p50: maybeDate,
  p90: maybeDate,
  today: isoDateText,
});
export type ForecastSummary = Readonly<z.infer<typeof forecastSummary>>;

/** A row to find a child by; carries the soonest outgrown date of the devices in use as last computed. */
export const childSummary = childRecord
  .pick({
    id: true,
    name: true,
    birthDate: true,
    sex: true,
    status: true,
    insensateSkin: true,
    latexAlert: true,
  })
  .extend({
    lastVisit: maybeDate,
    devicesInUse: z.number(),
    soonest: forecastSummary
      .nullable()
      .describe(
        'of the device in use that is outgrown first; already outgrown counts as first, one of which nothing is known as of today',
      ),
    version: z.number(),
  });
export type ChildSummary = Readonly<z.infer<typeof childSummary>>;

export interface ChildSearch {
  /** Words of a name in any order, initials, the beginning of an id, a birth date; empty for all. */
  readonly text?: string;
  /** Also names that differ from what was typed by one slip of the keyboard. */
  readonly slip?: boolean;
  readonly status?: Child['status'] | 'any'; // default 'active'
  /** 'name' (default) or 'soonest': outgrown first on top, where nothing is known as if it were half outgrown today, children without a device last. */
  readonly sort?: 'name' | 'soonest';
  /** Only children wearing a device of this family. */
  readonly family?: string;
}
