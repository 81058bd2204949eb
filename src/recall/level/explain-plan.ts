import { capital, plainDate } from '../../forecast/words.js';
import { counted } from '../../records/counted.js';
import { weekdayName } from '../../records/dates.js';
import type { Prices } from './build-programme.js';
import { severalClinicians } from './clinic-capacity.js';
import type { CompactProblem } from './compact-problem.js';
import type { Capacity, HarmedVisit, Relief } from './contract.js';
import { insideWindow } from './week-costs.js';

/** A difference of less than this is not worth a word, days. */
const NOTICEABLE = 1;
const days = (x: number) => counted(Math.round(x), 'day');

/** Why this visit got this week: its own best week, or what took that from it. */
export function explainWeek(
  p: CompactProblem,
  capacity: Capacity,
  prices: Prices,
  i: number,
  w: number,
): string {
  const r = p.requests[i];
  const here = weekName(p, capacity, w);
  if (r.bookedWeek !== null && w < p.weeks) return `Already booked: ${here}.`;
  const best = bestWeek(p, i);
  const extra = p.costs[i][w] - p.costs[i][best];
  const inside = insideWindow(r, capacity, w < p.weeks ? capacity.weeks[w] : null);
  const where = inside
    ? 'between the day a cast is worth it and the latest safe day'
    : `after the latest safe day${r.childIds.length > 1 ? ' of one of them' : ''}, ${plainDate(r.latestSafe)}`;
  if (w === best || extra < NOTICEABLE) {
    if (inside) return `Its best week: ${here}, ${where}.`;
    return w === 0
      ? `Overdue: the first planned week, ${here}.`
      : `The earliest that is possible: ${here}, ${where}.`;
  }
  return `${capital(here)}, ${where}; ${weekName(p, capacity, best)} would be ${days(extra)} better for this visit, but ${whatTook(p, prices, i, best)}.`;
}

const weekName = (p: CompactProblem, { weeks }: Capacity, w: number): string =>
  w < p.weeks ? `the week of ${plainDate(weeks[w])}` : 'after the planned weeks';

/** What has taken a visit's best week from it. */
function whatTook(p: CompactProblem, prices: Prices, i: number, best: number): string {
  const slot = best < p.weeks ? p.slots[i] * prices.slot[p.type[i]][best] : 0;
  const jobs = best < p.weeks ? p.jobs[i].reduce((s, j) => s + j.count * prices.job[j.limit][best], 0) : 0;
  const scarce = jobs > slot ? 'the workshop' : 'the clinic';
  return slot + jobs > NOTICEABLE
    ? `${scarce} is full then and the place does more for others (worth ${days(slot + jobs)})`
    : 'the places there went to visits that gain as much';
}

/** The week that would be cheapest for a request were it alone. */
function bestWeek(p: CompactProblem, i: number): number {
  let best = 0;
  p.costs[i].forEach((c, w) => {
    if (c < p.costs[i][best]) best = w;
  });
  return best;
}

/** Visits that capacity makes later than their window, most harm first; insensate skin before others. */
export function harmedVisits(p: CompactProblem, capacity: Capacity, week: readonly number[]): HarmedVisit[] {
  return p.requests
    .flatMap((r, i): HarmedVisit[] => {
      const w = week[i];
      const extra = r.outgrownDays[w] - r.outgrownDays[bestWeek(p, i)];
      const monday = w < p.weeks ? capacity.weeks[w] : null;
      if (w === bestWeek(p, i) || insideWindow(r, capacity, monday)) return [];
      const when = monday === null ? 'after the planned weeks' : `in the week of ${plainDate(monday)}`;
      return [
        {
          requestId: r.id,
          childIds: r.childIds,
          insensateSkin: r.insensateSkin,
          week: monday,
          latestSafe: r.latestSafe,
          extraOutgrownDays: extra,
          text: `Seen ${when}, past the latest safe day ${plainDate(r.latestSafe)}${extra < NOTICEABLE ? '' : `: ${days(extra)} more in an outgrown device to be expected`}.`,
        },
      ];
    })
    .sort(
      (a, b) =>
        Number(b.insensateSkin) - Number(a.insensateSkin) ||
        b.extraOutgrownDays - a.extraOutgrownDays ||
        (a.requestId < b.requestId ? -1 : 1),
    );
}

/** What one more slot or workshop job in a week would buy, most first (the linear programme's shadow prices). */
export function reliefOf(p: CompactProblem, capacity: Capacity, prices: Prices): Relief[] {
  const relief: Relief[] = [];
  const several = severalClinicians(capacity);
  prices.session.forEach((value, s) => {
    if (value < NOTICEABLE) return;
    const week = capacity.weeks[p.sessionWeek[s]];
    const { clinicianId, weekday } = capacity.sessions[s];
    const day = weekday ? ` on ${weekdayName(weekday)}` : '';
    const whose = several ? ` of ${clinicianId}` : '';
    const text = `One more casting slot${whose}${day} in the week of ${plainDate(week)} would spare ${days(value)} in outgrown devices.`;
    relief.push({ kind: 'slot', week, families: [], clinicianId, value, text });
  });
  prices.job.forEach((byWeek, g) => {
    byWeek.forEach((value, w) => {
      if (value < NOTICEABLE) return;
      const week = capacity.weeks[w];
      const { families } = capacity.workshop[g];
      const text = `Room for one more job (${families.length ? families.join(', ') : 'any family'}) in the workshop in the week of ${plainDate(week)} would spare ${days(value)} in outgrown devices.`;
      relief.push({ kind: 'workshop', week, families, clinicianId: null, value, text });
    });
  });
  return relief.sort((a, b) => b.value - a.value || (a.week < b.week ? -1 : 1));
}
