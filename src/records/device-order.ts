import type { Device } from './device.js';

const states: readonly Device['status'][] = ['worn', 'ordered', 'retired'];
const sides: readonly Device['side'][] = ['left', 'right', 'both', 'none'];

/** The order devices stand in wherever a clinician reads them: worn before being made, by family, left before right, older first. */
export const inReadingOrder = (a: Device, b: Device): number =>
  states.indexOf(a.status) - states.indexOf(b.status) ||
  a.family.localeCompare(b.family) ||
  sides.indexOf(a.side) - sides.indexOf(b.side) ||
  a.castDate.localeCompare(b.castDate);
