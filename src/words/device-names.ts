import type { Device } from '../records/device.js';
import type { FitRules } from '../rules/fit-rule.js';

export interface NamedDevice {
  readonly family: string;
  readonly side: Device['side'];
}

/** What a parent calls some devices: 'the left lower leg brace', 'both lower leg braces', 'the helmet and the right foot support'. */
export function plainDevices(devices: readonly NamedDevice[], rules: FitRules): string {
  const groups = new Map<string, Set<string>>();
  for (const d of devices) {
    const name = rules.get(d.family)?.names.en.plain ?? 'brace';
    groups.set(name, (groups.get(name) ?? new Set()).add(d.side));
  }
  const parts = [...groups].map(([name, sides]) => {
    if (sides.has('both')) return `the ${name}`;
    if (sides.has('left') && sides.has('right')) return `both ${name.replace(/^(.*?)( with .*)?$/, '$1s$2')}`;
    const side = [...sides][0];
    return side === 'none' ? `the ${name}` : `the ${side} ${name}`;
  });
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;
}

/** 'both braces are', 'the brace is'. */
export const isPlural = (named: string): boolean => named.startsWith('both ') || named.includes(' and ');
