import type { FamilyRule } from '../../rules/fit-rule.js';
import type { RecallSettings } from './recall-settings.js';

/** How much a day beyond use matters: the greater of what the device and the skin ask for; 1 for ordinary skin in a limb device. */
export function harmADay(rule: FamilyRule | null, insensateSkin: boolean, settings: RecallSettings): number {
  const device = rule ? (settings.harmADay[rule.id] ?? rule.harmADay.value) : 1;
  return insensateSkin ? Math.max(device, settings.harmInsensate) : device;
}

/**
 * Accepted chance of being beyond use before the next device is fitted: waste / (waste + late), the critical ratio of the
 * newsvendor problem (Arrow, Harris & Marschak 1951; from memory). `late` is the harm of a day beyond use, `waste` what a
 * day longer in use is worth. acceptedChance(1, default) = 0.333, (2) = 0.2, (3) = 0.143; never above one half.
 */
export function acceptedChance(harm: number, settings: Pick<RecallSettings, 'acceptedChance'>): number {
  const waste = settings.acceptedChance / (1 - settings.acceptedChance);
  return Math.min(0.5, waste / (waste + harm));
}
