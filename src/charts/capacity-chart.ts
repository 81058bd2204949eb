/** Work planned per week against what the clinic can do, the part above it marked by colour, outline and number. */
import type { IsoDate } from '../records/dates.js';
import { fillSpec, type Spec } from './fill-spec.js';
import { linesThatFit } from './lines-that-fit.js';
import { timeLocale } from './time-locale.js';

export interface WeekLoad {
  /** Monday of the week. */
  readonly weekStart: IsoDate;
  readonly load: number;
  readonly capacity: number;
}

export function capacityChart(input: {
  readonly weeks: readonly WeekLoad[];
  /** Width of the plot; 250 suits a telephone held upright. */
  readonly widthPx?: number;
}): Spec {
  const { weeks, widthPx = 720 } = input;
  const parts = ['within capacity', 'over capacity'];
  return fillSpec(
    'capacity',
    {
      subtitle: linesThatFit('Black line: capacity. A number above a bar is what does not fit.', widthPx),
      widthPx,
      description: `Workload of ${weeks.length} weeks, ${weeks.filter((w) => w.load > w.capacity).length} over capacity`,
      loadDomain: [0, Math.max(1, ...weeks.flatMap((w) => [w.load, w.capacity])) * 1.12],
      parts,
    },
    {
      parts: weeks.flatMap((w) => [
        { weekStart: w.weekStart, part: parts[0], order: 0, amount: Math.min(w.load, w.capacity) },
        { weekStart: w.weekStart, part: parts[1], order: 1, amount: Math.max(0, w.load - w.capacity) },
      ]),
      weeks: weeks.map((w) => ({
        ...w,
        overText: w.load > w.capacity ? `+${Math.round(w.load - w.capacity)}` : '',
      })),
    },
    timeLocale('en'),
  );
}
