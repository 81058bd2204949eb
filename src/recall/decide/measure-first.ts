import type { DeviceDue, TurnaroundEstimate } from '../contract.js';
import { levellingSettings } from '../level/contract.js';
import { type ReviewOrRecast, reviewOrRecast } from '../level/review-or-recast.js';

/**
 * Where one more measurement before the cast is worth its cost for some device of the visit: at home before in the
 * clinic. Null where the odds are plain enough. The cast keeps its date and place until the measurement moves it.
 */
export function measureFirst(
  devices: readonly DeviceDue[],
  turnaround: (family: string) => TurnaroundEstimate,
  insensateSkin: boolean,
): ReviewOrRecast['where'] | null {
  const settings = levellingSettings.parse({});
  const wanted = devices.flatMap((d) => {
    const asked = d.forecast && reviewOrRecast(d.forecast, turnaround(d.family), settings, insensateSkin);
    return asked?.decision === 'measure' ? [asked.where] : [];
  });
  return wanted.find((where) => where === 'home') ?? wanted[0] ?? null;
}
