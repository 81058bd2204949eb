import type { IsoDate } from '../records/dates.js';
import type { Configuration } from './configuration.js';

export interface Clock {
  now(): Date;
  /** Today's date in the clinic's time zone (configuration TIME_ZONE), or the fixed TODAY of the demo. */
  today(): IsoDate;
  /** The day a moment fell on where the clinic is. */
  dayOf(moment: Date): IsoDate;
}

/** Which day a moment falls on in a time zone. */
export function dayIn(timeZone: string): (moment: Date) => IsoDate {
  const day = new Intl.DateTimeFormat('en-CA', {
    timeZone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
  });
  return (moment) => day.format(moment);
}

/** The real time; today's date in the clinic's time zone, or the fixed one of a rehearsal. */
export function clock(config: Pick<Configuration, 'today' | 'timeZone'>): Clock {
  const dayOf = dayIn(config.timeZone);
  return {
    now: () => new Date(),
    today: () => config.today ?? dayOf(new Date()),
    dayOf,
  };
}
