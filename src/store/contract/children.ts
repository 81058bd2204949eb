/** Children as they are looked for and kept. */

import type { DeviceForecast } from '../../forecast/contract.js';
import type { IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import type { Child } from '../../records/records.js';

/** A row to find a child by; carries the soonest outgrown date of the devices in use as last computed. */
export interface ChildSummary {
  readonly id: string;
  readonly name: string;
  readonly birthDate: IsoDate;
  readonly sex: Child['sex'];
  readonly status: Child['status'];
  readonly insensateSkin: boolean;
  readonly latexAlert: boolean;
  readonly lastVisit: IsoDate | null;
  readonly devicesInUse: number;
  /** The forecast of the device in use that is outgrown first (already outgrown counts as first), or null. */
  readonly soonest: ForecastSummary | null;
  readonly version: number;
}

export interface ForecastSummary {
  readonly deviceId: string;
  readonly family: string;
  readonly side: Device['side'];
  readonly outcome: DeviceForecast['outcome'];
  readonly p10: IsoDate | null;
  readonly p50: IsoDate | null;
  readonly p90: IsoDate | null;
  readonly today: IsoDate;
}

export interface ChildSearch {
  /** Words of a name in any order, initials, the beginning of an id, a birth date; empty for all. */
  readonly text?: string;
  /** Also names that differ from what was typed by one slip of the keyboard. */
  readonly slip?: boolean;
  readonly status?: Child['status'] | 'any'; // default 'active'
  /** 'name' (default) or 'soonest': outgrown first on top, children without a forecast last. */
  readonly sort?: 'name' | 'soonest';
  /** Only children wearing a device of this family. */
  readonly family?: string;
}
