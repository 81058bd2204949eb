import { type DayNumber, isoDate } from '../records/dates.js';
import type { Child, MaturityMarker } from '../records/records.js';
import type { Chance } from './chance.js';
import type { TrueGrowth } from './true-growth.js';

/** Biological ages (girls' scale; boys two years later) at which the next stage begins; roughly, from memory. */
const HAND_STAGES = [9.5, 10.5, 11.3, 12, 12.8, 13.6, 14.6];
const PELVIS_STAGES = [13, 13.7, 14.3, 14.8, 16];
const MENARCHE_YEARS = 12.9;

/** Signs of maturity a clinic has on file for some of its older children, read off the true biological age. */
export function inventMarkers(
  child: Child,
  growth: TrueGrowth,
  visits: readonly DayNumber[],
  nextId: (kind: 'K') => string,
  c: Chance,
): MaturityMarker[] {
  const spine = child.conditions.some((condition) => condition.endsWith('scoliosis'));
  const markers: MaturityMarker[] = [];
  const add = (day: DayNumber, sign: Sign) =>
    markers.push({ id: nextId('K'), childId: child.id, date: isoDate(day), ...sign });
  const later = child.sex === 'male' ? 2 : 0;
  let menarche = false;
  visits.forEach((day, index) => {
    const maturity = growth.maturityYears(day);
    if (maturity < 8.5 || maturity > 17.5) return;
    const sign = signAt(maturity, later, spine, c);
    if (sign) add(day, sign);
    const begun =
      maturity > MENARCHE_YEARS && index > 0 && growth.maturityYears(visits[index - 1]) <= MENARCHE_YEARS;
    if (child.sex === 'female' && begun && !menarche && c.happens(0.6)) {
      menarche = true;
      add(Math.round((day + visits[index - 1]) / 2), { kind: 'menarche', value: 0, sdYears: null });
    }
  });
  return markers;
}

type Sign = Pick<MaturityMarker, 'kind' | 'value' | 'sdYears'>;

/** What a visit's X-ray or examination shows; most visits have neither. */
function signAt(maturity: number, later: number, spine: boolean, c: Chance): Sign | null {
  const onScale = maturity - later + 0.4 * c.normal();
  const stage = (from: readonly number[]) => from.filter((begins) => onScale >= begins).length;
  if (spine && c.happens(0.35))
    return c.happens(0.5)
      ? { kind: 'pelvis-stage', value: stage(PELVIS_STAGES), sdYears: null }
      : { kind: 'hand-stage', value: 1 + stage(HAND_STAGES), sdYears: null };
  if (!spine && c.happens(0.05))
    return { kind: 'bone-age', value: Math.round((maturity + 0.6 * c.normal()) * 2) / 2, sdYears: 0.6 };
  return maturity < 10.5 && c.happens(0.15) ? { kind: 'pre-pubertal', value: 0, sdYears: null } : null;
}
