import type { CalendarEntry } from '../exchange/icalendar/recall-calendar.js';
import type { RecallRow } from '../store/contract.js';

/** What of the list belongs into a calendar: visits to arrange and those arranged, not what is done or was declined. */
export const calendarEntries = (rows: readonly RecallRow[]): CalendarEntry[] =>
  rows
    .filter((r) => r.list !== 'open' && r.state !== 'done' && r.state !== 'declined')
    .map(({ entry, state, appointment }) =>
      state === 'booked' && appointment ? { ...entry, appointment } : entry,
    );
