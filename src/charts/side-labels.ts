import type { DeviceForecast } from '../forecast/contract.js';
import type { MeasureId, Side } from '../records/measure.js';
import type { ChartWords } from './chart-words.js';

/** What the legend calls each side: 'Left: 12 mm a year expected' where the pace is known. */
export function sideLabels(
  forecasts: readonly DeviceForecast[],
  measure: MeasureId,
  sides: readonly Side[],
  sideWord: (side: Side) => string,
  words: ChartWords,
): Record<string, string> {
  const labels = sides.map((side) => {
    const mm = forecasts
      .flatMap((f) => f.room)
      .find((r) => r.series.measure === measure && r.series.side === side)?.paceMmAYear;
    const word = sideWord(side);
    return [word, mm === undefined ? word : words.pace(word, Math.max(0, Math.round(mm)))];
  });
  return Object.fromEntries(labels);
}
