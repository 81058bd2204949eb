import type { Device } from '../records/device.js';

const initialisms: Record<string, string> = { afo: 'AFO', kafo: 'KAFO', hkafo: 'HKAFO' };

/** 'solid-afo' -> 'Solid AFO'. Works for a clinic's own family ids too. */
export function familyLabel(family: string): string {
  const words = family
    .split(/[-_ ]+/)
    .map((w) => initialisms[w.toLowerCase()] ?? w)
    .join(' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** 'Solid AFO, left'; a device of the trunk or head has no side. */
export function deviceLabel(device: Pick<Device, 'family' | 'side'>): string {
  const label = familyLabel(device.family);
  return device.side === 'none' ? label : `${label}, ${device.side === 'both' ? 'both sides' : device.side}`;
}

/** Several devices in one line: left and right of a family are named together. */
export function deviceLabels(devices: readonly Pick<Device, 'family' | 'side'>[]): string {
  const families = [...new Set(devices.map((d) => d.family))];
  const labels = families.flatMap((family) => {
    const own = devices.filter((d) => d.family === family);
    const pair = own.some((d) => d.side === 'left') && own.some((d) => d.side === 'right');
    const rest = own.filter((d) => !pair || d.side === 'both' || d.side === 'none').map(deviceLabel);
    return pair ? [`${familyLabel(family)}, left and right`, ...rest] : rest;
  });
  return [...new Set(labels)].join('; ');
}
