import type { Device } from '../../records/device.js';
import type { Child } from '../../records/records.js';
import type { FamilyRule } from '../../rules/fit-rule.js';
import type { DeviceView } from '../../service/child-view/load-child.js';
import type { DeviceVersion, EventRevision } from '../../store/contract.js';

export interface DevicePageProps {
  readonly child: Child;
  readonly device: Device;
  /** The device it takes the place of, while that one is still worn. */
  readonly replaced: Device | null;
  readonly view: DeviceView | null;
  readonly rule: FamilyRule | null;
  readonly events: readonly EventRevision[];
  readonly versions: readonly DeviceVersion[];
}
