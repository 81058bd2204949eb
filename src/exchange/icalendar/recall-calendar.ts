import { createHmac } from 'node:crypto';
import ical, { ICalCalendarMethod, ICalEventClass, ICalEventTransparency } from 'ical-generator';
import { addDaysIso, dayNumber, type IsoDate } from '../../measurements/dates.js';
import type { RecallEntry } from '../../recall/contract.js';

export interface CalendarOptions {
  readonly today: IsoDate;
  /** When the feed is made; DTSTAMP. */
  readonly now: Date;
  /** Key under which a child's id is hashed into the UID, so that ids cannot be guessed back out of a feed. */
  readonly uidKey: string;
  /** Page of an entry (behind sign-in), if the service gives one. */
  readonly linkOf?: (entry: RecallEntry) => string;
}

/**
 * The recall plan as an iCalendar feed (RFC 5545): one all-day event an entry, on the last day to see the child by, or
 * today where that has passed. Calendars are read over shoulders and copied to telephones, so an event says no name, no
 * diagnosis and no device. The UID stays the same from plan to plan; SEQUENCE grows by the day.
 */
export function recallCalendar(entries: readonly RecallEntry[], options: CalendarOptions): string {
  const calendar = ical({
    name: 'Clinic recall plan',
    prodId: { company: 'doorpost', product: 'recall plan', language: 'EN' },
    method: ICalCalendarMethod.PUBLISH,
  });
  for (const entry of entries) {
    const date = entry.latestSafe ?? entry.reviewDue ?? options.today;
    const day = dayNumber(date) < dayNumber(options.today) ? options.today : date;
    calendar.createEvent({
      id: eventUid(entry, options.uidKey),
      sequence: dayNumber(options.today),
      stamp: options.now,
      allDay: true,
      timezone: 'UTC',
      start: `${day}T00:00:00Z`,
      end: `${addDaysIso(day, 1)}T00:00:00Z`,
      summary: 'Clinic appointment to arrange',
      class: ICalEventClass.PRIVATE,
      transparency: ICalEventTransparency.TRANSPARENT,
      url: options.linkOf?.(entry) ?? null,
    });
  }
  // Lines end in CRLF, the last one too (RFC 5545, 3.1).
  return `${calendar.toString().trimEnd()}\r\n`;
}

/** One child, one kind of visit, the same devices: the same UID, whatever the dates become. */
export function eventUid(entry: RecallEntry, key: string): string {
  const what = [entry.childId, entry.action, ...[...entry.deviceIds].sort()].join('\u0000');
  return `${createHmac('sha256', key).update(what).digest('hex').slice(0, 32)}@doorpost.invalid`;
}
