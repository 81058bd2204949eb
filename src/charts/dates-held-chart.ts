/** Forecast dates against what the clinic judged: how many devices were outgrown by each date. */
import type { DateHeld } from '../forecast/device/held-against-verdicts.js';
import { fillSpec, type Spec } from './fill-spec.js';
import { linesThatFit, titleLines } from './lines-that-fit.js';
import { timeLocale } from './time-locale.js';

const percent = (share: number) => Math.round(1000 * share) / 10;
const dateName = (chance: number) => `${percent(chance)} % date`;

const WIDE_PX = 720;
/** Of a telephone's width the names of the dates and the counts at the other side take so much. */
const BESIDE_PX = 60;

export function datesHeldChart(dates: readonly Omit<DateHeld, 'unknown'>[], widthPx = WIDE_PX): Spec {
  const held = dates.flatMap((d) => {
    if (d.share === null || d.mostShare === null) return [];
    const n = d.outgrown + d.between + d.fitted;
    return [
      {
        date: dateName(d.chance),
        sharePercent: percent(d.share),
        mostPercent: percent(d.mostShare),
        lowPercent: percent(d.low),
        highPercent: percent(d.high),
        words: `${d.outgrown} of ${n} judged outgrown by the ${dateName(d.chance)}, ${d.between} more may have been`,
      },
    ];
  });
  return fillSpec(
    'dates-held',
    {
      widthPx: widthPx < WIDE_PX ? widthPx - BESIDE_PX : widthPx,
      title: titleLines('Devices outgrown by each date of their forecast', widthPx),
      subtitle: linesThatFit(
        'Black tick: what the forecast said. Dot: judged outgrown by the date. Pale bar: may have been by then, judged at a later visit. Line: 95 % interval.',
        widthPx,
      ),
      shareTicks: widthPx < WIDE_PX ? [0, 50, 100] : [0, 10, 25, 50, 75, 90, 100],
      description: held.map((h) => h.words).join('; '),
      dates: dates.map((d) => dateName(d.chance)),
    },
    {
      held,
      expected: dates.map((d) => ({
        date: dateName(d.chance),
        expectedPercent: percent(d.chance),
        counted: d.share === null ? 'none yet' : `${d.outgrown} of ${d.outgrown + d.between + d.fitted}`,
      })),
    },
    timeLocale('en'),
  );
}
