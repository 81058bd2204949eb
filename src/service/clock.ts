import type { IsoDate } from '../records/dates.js';
import type { Configuration } from './configuration.js';

export interface Clock {
  now(): Date;
  /** Today's date in the clinic's time zone (configuration TIME_ZONE), or the fixed TODAY of the demo. */
  today(): IsoDate;
}

/** The real time; today's date in the clinic's time zone, or the fixed one of a rehearsal. */
export function clock(config: Pick<Configuration, 'today' | 'timeZone'>): Clock {
  const day = new Intl.DateTimeFormat('en-CA', {
    timeZone: config.timeZone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
  });
  return {
    now: () => new Date(),
    today: () => config.today ?? day.format(new Date()),
  };
}
