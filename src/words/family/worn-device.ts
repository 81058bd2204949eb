import type { Device } from '../../records/device.js';
import type { FitRules } from '../../rules/fit-rule.js';
import type { UrgentReason, WornDevice } from './family-words.js';

/** What a family's words need of a device; one without a rule is a brace on a limb. */
export function wornDevice({ family, side }: Pick<Device, 'family' | 'side'>, rules: FitRules): WornDevice {
  const rule = rules.get(family);
  if (rule) return { names: rule.names, region: rule.region, side };
  const names = {
    en: { clinical: 'Orthosis', plain: 'brace' },
    es: { clinical: 'Ortesis', plain: 'la férula' },
  };
  return { names, region: 'ankle-foot', side };
}

/** What kind of red flag it is, as far as a family's next step hangs on it; by the flag's id. */
export function urgentReason(flagId: string): UrgentReason {
  if (flagId.startsWith('head-growth') || flagId.startsWith('finding-head-warning')) return 'head';
  if (flagId.startsWith('finding-breathing')) return 'breathing';
  return /^finding-(skin|swelling|rash|pain)/.test(flagId) ? 'skin' : 'other';
}
