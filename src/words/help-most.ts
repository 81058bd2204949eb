import type { DeviceForecast } from '../forecast/contract.js';
import { measures } from '../records/measure.js';

/** Less of the width taken off than this is not worth a sentence. */
const WORTH_SAYING = 0.15;

type Worth = Pick<DeviceForecast, 'readingWorth' | 'markerWorth'>;

/**
 * What would narrow a device's date most, for whoever decides what to measure: 'A reading of the left foot length today
 * would narrow the date from 7 weeks to 3. ...' Null where nothing would by much. No reason to take a radiograph.
 */
export function helpMostSentence({ readingWorth = [], markerWorth = null }: Worth): string | null {
  const helps = (w: { nowDays: number; thenDays: number }) => w.thenDays <= (1 - WORTH_SAYING) * w.nowDays;
  const reading = readingWorth.find(helps);
  const marker = markerWorth && helps(markerWorth) ? markerWorth : null;
  const said: string[] = [];
  if (reading) {
    const { measure, side } = reading.series;
    const name = `${side === 'none' ? '' : `${side} `}${measures[measure].label.toLowerCase()}`;
    said.push(`A reading of the ${name} today would narrow the date from ${span(reading)}.`);
  }
  if (marker)
    said.push(
      `A maturity marker would narrow it from ${span(marker)}: enter a bone age or a stage if there is one already. None is taken for a forecast's sake.`,
    );
  return said.length > 0 ? said.join(' ') : null;
}

/** '7 weeks to 3', '12 days to 5'. */
function span({ nowDays, thenDays }: { nowDays: number; thenDays: number }): string {
  const weeks = nowDays >= 28;
  const n = (days: number) => (weeks ? Math.max(1, Math.round(days / 7)) : days);
  return `${n(nowDays)} ${weeks ? 'weeks' : 'days'} to ${n(thenDays)}`;
}
