import type { Device, DeviceEvent, Verdict } from '../../records/device.js';
import type { SkinState } from '../../records/skin-check.js';
import type { NewReading } from '../../store/contract.js';
import type { SizeUnit } from './typed-size.js';

/** What a person saw of one device at a visit: the skin under it, and how it fits. */
export interface Judged extends Pick<DeviceEvent, 'hipAngleLeft' | 'hipAngleRight'> {
  readonly device: Device;
  readonly skin: {
    readonly state: SkinState;
    readonly minutes: number | null;
    readonly where: string;
  } | null;
  readonly verdict: Verdict | null;
  readonly note: string;
}

export interface TypedVisit {
  readonly date: string;
  readonly unit: SizeUnit;
  readonly observer: string;
  readonly typed: Record<string, string>;
  readonly readings: NewReading[];
  readonly judged: readonly Judged[];
  /** Fields that cannot be accepted, with the reason. */
  readonly errors: Record<string, string>;
  /** Fields to be confirmed by a person before they are saved. */
  readonly doubts: Record<string, string>;
  /** What else is worth saying beside a field. */
  readonly remarks: Record<string, string>;
}
