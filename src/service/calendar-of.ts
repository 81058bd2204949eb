import { recallCalendar } from '../exchange/icalendar/recall-calendar.js';
import { clinicDays } from '../recall/level/clinic-week.js';
import type { RecallRow } from '../store/contract.js';
import { clinicWeekOf } from './clinic-week-of.js';
import type { ServiceDeps } from './dependencies.js';

/** The list as a calendar: visits to arrange and those arranged, not what is done or was declined. */
export async function calendarOf(
  rows: readonly RecallRow[],
  { store, clock }: Pick<ServiceDeps, 'store' | 'clock'>,
): Promise<string> {
  const wanted = rows.filter((r) => r.list !== 'open' && r.state !== 'done' && r.state !== 'declined');
  return recallCalendar(
    wanted.map(({ entry, state, appointment }) =>
      state === 'booked' && appointment ? { ...entry, appointment } : entry,
    ),
    {
      today: clock.today(),
      now: clock.now(),
      uidKey: await store.secret('calendar-uids'),
      clinic: clinicDays(clinicWeekOf((await store.settings.get()).value)),
    },
  );
}
