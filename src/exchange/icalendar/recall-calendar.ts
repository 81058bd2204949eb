import { createHmac } from 'node:crypto';
import ical, { ICalCalendarMethod, ICalEventClass, ICalEventTransparency } from 'ical-generator';
import type { RecallEntry } from '../../recall/contract.js';
import type { ClinicDays } from '../../recall/level/clinic-week.js';
import { addDaysIso, dayNumber, type IsoDate } from '../../records/dates.js';

export interface CalendarOptions {
  readonly today: IsoDate;
  /** When the feed is made; DTSTAMP. */
  readonly now: Date;
  /** Key under which a child's id is hashed into the UID, so that ids cannot be guessed back out of a feed. */
  readonly uidKey: string;
  readonly clinic: Pick<ClinicDays, 'ofWeek' | 'isOpen'>;
}

/** An entry of the list, with the day it is booked for where it is. */
export type CalendarEntry = RecallEntry & { readonly appointment?: IsoDate };

/**
 * The recall plan as an iCalendar feed (RFC 5545): one all-day event an entry, on the day it is booked for, over the
 * working days of its planned week, or without one on the last day to see the child by; today where that has passed. Calendars are read over shoulders and copied to telephones, so an event says no name, no
 * diagnosis and no device. The UID stays the same from plan to plan; SEQUENCE grows by the day.
 */
export function recallCalendar(entries: readonly CalendarEntry[], options: CalendarOptions): string {
  const calendar = ical({
    name: 'Clinic recall plan',
    prodId: { company: 'doorpost', product: 'recall plan', language: 'EN' },
    method: ICalCalendarMethod.PUBLISH,
  });
  for (const entry of entries) {
    const { from, to } = daysOf(entry, options);
    calendar.createEvent({
      id: eventUid(entry, options.uidKey),
      sequence: dayNumber(options.today),
      stamp: options.now,
      allDay: true,
      timezone: 'UTC',
      start: `${from}T00:00:00Z`,
      end: `${addDaysIso(to, 1)}T00:00:00Z`,
      summary: entry.appointment ? 'Clinic appointment' : 'Clinic appointment to arrange',
      class: ICalEventClass.PRIVATE,
      transparency: ICalEventTransparency.TRANSPARENT,
    });
  }
  // Lines end in CRLF, the last one too (RFC 5545, 3.1).
  return `${calendar.toString().trimEnd()}\r\n`;
}

/** First and last day of an entry's event. */
function daysOf(entry: CalendarEntry, { today, clinic }: CalendarOptions): { from: IsoDate; to: IsoDate } {
  const { appointment, plannedWeek } = entry;
  const left = plannedWeek
    ? clinic.ofWeek(plannedWeek).filter((day) => day >= today && clinic.isOpen(day))
    : [];
  if (!appointment && left.length > 0) return { from: left[0], to: left[left.length - 1] };
  const date = appointment ?? entry.dueBy ?? today;
  const day = date < today ? today : date;
  return { from: day, to: day };
}

/** One child, one kind of visit, the same devices: the same UID, whatever the dates become. */
export function eventUid(entry: RecallEntry, key: string): string {
  const what = [entry.childId, entry.action, ...[...entry.deviceIds].sort()].join('\u0000');
  return `${createHmac('sha256', key).update(what).digest('hex').slice(0, 32)}@doorpost.invalid`;
}
