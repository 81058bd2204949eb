import type { Device } from '../../records/device.js';

/** 'left hip 40°, right hip 45°'; empty where neither was looked at. */
export const hipAngleText = (left: number | null = null, right: number | null = null): string =>
  [left === null ? '' : `left hip ${left}°`, right === null ? '' : `right hip ${right}°`]
    .filter(Boolean)
    .join(', ');

/** 'from 40° to 60°': between which angles a device was set to hold the hips; '' where nobody said. */
export const hipSetText = ({
  hipAngleFrom: from,
  hipAngleTo: to,
}: Pick<Device, 'hipAngleFrom' | 'hipAngleTo'>): string =>
  [from == null ? '' : `from ${from}°`, to == null ? '' : `to ${to}°`].filter(Boolean).join(' ');
