import { type DayNumber, dayNumber, isoDate } from '../records/dates.js';
import type { Device } from '../records/device.js';
import type { SkinCheck } from '../records/skin-check.js';
import type { Region } from '../rules/fit-rule.js';
import { loadRules } from '../rules/load-rules.js';
import type { Chance } from './chance.js';

/** Shares invented: most looks find nothing, some a mark that fades, few one that lasts. */
const FADES = 0.15;
const LASTS = 0.015;
const OF_FOOT_AND_LEG = ['medial malleolus', 'navicular', 'heel', 'calf edge', 'base of the 5th metatarsal'];
const PLACES: Partial<Record<Region, readonly string[]>> = {
  knee: ['kneecap', 'hollow of the knee', 'calf edge'],
  hip: ['groin', 'inner thigh', 'hollow of the knee'],
  trunk: ['iliac crest', 'ribs', 'armpit'],
  head: ['forehead', 'back of the head', 'above the ear'],
  'wrist-hand': ['base of the thumb', 'wrist', 'palm'],
};
const rules = loadRules();
const placesOf = ({ family }: Device): readonly string[] =>
  PLACES[rules.get(family)?.region ?? 'foot'] ?? OF_FOOT_AND_LEG;

/** A look at the skin at every visit at which something is worn. */
export function inventSkinChecks(
  devices: readonly Device[],
  visits: readonly DayNumber[],
  nextId: (kind: 'S') => string,
  c: Chance,
): SkinCheck[] {
  return visits.flatMap((day) =>
    devices
      .filter((d) => d.status === 'worn' && d.fittedDate !== null && dayNumber(d.fittedDate) <= day)
      .map((device): SkinCheck => {
        const draw = c.between(0, 1);
        const place = c.oneOf(placesOf(device));
        const minutes = Math.round(c.between(5, 20));
        return {
          id: nextId('S'),
          childId: device.childId,
          deviceId: device.id,
          date: isoDate(day),
          ...markOf(draw, minutes, place),
          side: device.side === 'left' || device.side === 'right' ? device.side : null,
          cannotWarn: false,
          observer: '',
          note: '',
        };
      }),
  );
}

/** What is found, by one draw from 0 to 1. */
function markOf(
  draw: number,
  minutes: number,
  where: string,
): Pick<SkinCheck, 'state' | 'minutes' | 'where'> {
  if (draw < LASTS) return { state: 'lasts', minutes: minutes + 20, where };
  return draw < FADES ? { state: 'fades', minutes, where } : { state: 'none', minutes: null, where: '' };
}
