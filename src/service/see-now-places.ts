import { nextPlaces } from '../recall/level/next-places.js';
import type { IsoDate } from '../records/dates.js';
import type { ClinicSettings, RecallBrief } from '../store/contract.js';
import { clinicWeekOf } from './clinic-week-of.js';

/** How many of a list must be seen now, and the places of today and the next working day that are left for them. */
export const seeNowPlaces = (rows: readonly RecallBrief[], settings: ClinicSettings, today: IsoDate) => ({
  wanted: rows.filter((r) => r.entry.action === 'see-now' && r.state !== 'done').length,
  days: nextPlaces(
    clinicWeekOf(settings),
    rows.flatMap((r) => (r.state === 'booked' && r.appointment ? [r.appointment] : [])),
    today,
  ),
});
