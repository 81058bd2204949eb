import type { DeviceForecast, Flag } from '../../forecast/contract.js';
import type { ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import type { DeviceHistory } from '../../records/device-history.js';
import type { FamilyRule } from '../../rules/fit-rule.js';
import type { AdjustStep, ReplacementInProgress, TurnaroundEstimate } from '../contract.js';
import type { BeyondUseChance } from './beyond-use-chance.js';
import type { Look } from './check-figure.js';
import type { RecallSettings } from './recall-settings.js';
import type { RoomByReadings } from './room-by-readings.js';
import type { Successor } from './successor-of.js';

export interface DeviceQuestion {
  readonly record: ChildRecord;
  readonly device: Device;
  /** Null where the clinic has no rule for the family. */
  readonly rule: FamilyRule | null;
  readonly forecast: DeviceForecast | null;
  readonly flags: readonly Flag[];
  readonly turnaround: TurnaroundEstimate;
  readonly replacement: ReplacementInProgress | null;
  /** The device worn in its place already, where there is one. */
  readonly successor: Successor | null;
  readonly today: IsoDate;
  /** What falls due by this day is wanted now. */
  readonly until: IsoDate;
  readonly settings: RecallSettings;
}

/** Everything that the choice of an action looks at, worked out once. */
export interface DeviceFacts extends DeviceQuestion {
  readonly history: DeviceHistory;
  readonly chance: BeyondUseChance | null;
  readonly accepted: number;
  readonly harm: number;
  /** The same as castBy at an even chance: when it would be cast after a look in between. */
  readonly evenCastBy: IsoDate | null;
  /** The same at half as much again of the accepted chance: a look is early enough until then. */
  readonly lookBy: IsoDate | null;
  /** What readings as they stand leave at the deciding dimension; null without two. */
  readonly plainRoom: RoomByReadings | null;
  readonly castBy: IsoDate | null;
  readonly beyondUseSince: IsoDate | null;
  readonly chanceToday: number | null;
  /** Chance that a visit on the day it is wanted would find a cast needed. */
  readonly neededAtVisit: number | null;
  readonly adjust: AdjustStep | null;
  readonly part: { readonly part: string; readonly by: IsoDate; readonly spentOn: IsoDate | null } | null;
  readonly look: Look;
  /** Reviewed for wear alone: growth is over or of no matter. */
  readonly wearOnly: boolean;
  /** The usual review: what was read is known until then. */
  readonly reviewBy: IsoDate;
  /** The first look after its fitting, while that is still to come. */
  readonly firstLookBy: IsoDate | null;
  readonly fundedFrom: IsoDate | null;
}
