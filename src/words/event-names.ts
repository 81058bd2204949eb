import type { DeviceEvent, EndReason, Verdict } from '../records/device.js';

/** What happened to a device, as a clinician reads it. */
export const eventNames: Readonly<Record<DeviceEvent['kind'], string>> = {
  cast: 'cast',
  delivered: 'delivered',
  adjusted: 'adjusted',
  're-cast': 're-cast',
  broken: 'broken',
  lost: 'lost',
  retired: 'no longer worn',
  verdict: 'fit judged',
};

export const endReasonNames: Readonly<Record<EndReason, string>> = {
  outgrown: 'outgrown',
  'worn-out': 'worn out',
  broken: 'broken',
  lost: 'lost',
  'function-changed': 'function changed',
  surgery: 'surgery',
  'tone-or-contracture': 'tone or contracture',
  skin: 'skin',
  transferred: 'transferred to another clinic',
  'no-longer-wanted': 'no longer wanted',
};

/** How a device fits, as it is asked and shown, the usual answer first. */
export const fitNames: Readonly<Record<Verdict, string>> = {
  good: 'fits well',
  tight: 'tight, still serves',
  outgrown: 'outgrown',
  loose: 'loose',
};
