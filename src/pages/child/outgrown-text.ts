import { type DeviceForecast, isUnknown } from '../../forecast/contract.js';
import { capital, plainSeries } from '../../forecast/words.js';
import type { IsoDate } from '../../records/dates.js';
import type { ForecastSummary } from '../../store/contract.js';
import { outcomeNames } from '../../words/outcome-names.js';
import type { Format } from '../parts/format.js';

type Dates = Pick<ForecastSummary, 'outcome' | 'p10' | 'p50' | 'p90'>;

/** The answer in a few words: a band of months, never a single day. */
export function outgrownText(f: Dates, today: IsoDate, format: Format): string {
  if (f.outcome !== 'forecast') return capital(outcomeNames[f.outcome]);
  if (!f.p10) return 'After the forecast ends';
  const from = f.p10 <= today ? 'now' : format.month(f.p10);
  if (!f.p90) return `From ${from} on`;
  const to = f.p90 <= today ? 'now' : format.month(f.p90);
  return from === to ? `In ${from}`.replace('In now', 'Now') : `${capital(from)} to ${to}`;
}

/** 'alert', 'due', 'plan' or 'calm', for the mark beside the words. */
export function urgency(f: Dates, today: IsoDate): 'alert' | 'due' | 'plan' | 'calm' {
  if (f.outcome === 'already-outgrown') return 'alert';
  // Nothing known is not nothing to do.
  if (isUnknown(f)) return 'due';
  if (f.outcome === 'forecast') return f.p10 !== null && f.p10 <= today ? 'due' : 'plan';
  return 'calm';
}

/** What limits it first, by how often: 'left foot length 80 %, stature 12 %'. */
export const limitedFirstBy = ({ drivers }: Pick<DeviceForecast, 'drivers'>, format: Format): string =>
  drivers
    .filter((d) => d.share >= 0.03)
    .slice(0, 3)
    .map((d) => `${plainSeries(d.series)} ${format.percent(d.share)}`)
    .join(', ');
