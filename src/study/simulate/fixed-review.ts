import { type DayNumber, isoDate } from '../../records/dates.js';
import { adjustmentsLeftOn } from '../../rules/dimension-limits.js';
import type { ChildInCare, Room } from './child-in-care.js';

/** Room is made until twice what is called tight is there again, in whole holes of a bar (common practice, no source). */
const EASED_TO = 2;

/**
 * A review without forecasts, by plain rules of the trade: what looks tight and can be eased is; what shows that the share
 * of the allowance is used is renewed by its part, or ends the device where no part answers it.
 */
export function fixedReview(child: ChildInCare, day: DayNumber, castAheadShare: number): void {
  const used = ({ limit, roomMm }: Room) =>
    castAheadShare <= 0 || roomMm <= (1 - castAheadShare) * limit.baseMm;
  if (!child.making) {
    if (child.seen(day).some((r) => r.answer === null && used(r))) child.cast(day);
    else orderPart(child, day, used);
  }
  easeWhatIsTight(child, day);
  child.judge(day);
}

function orderPart(child: ChildInCare, day: DayNumber, used: (room: Room) => boolean): void {
  const spent = child.seen(day).find((r) => r.answer === 'part' && used(r));
  const part = child.simulated.rule.parts.find((p) => spent && p.renews.includes(spent.limit.series.measure));
  if (part) child.order(day, part.id);
}

/** What any clinician does who sees it, whatever called the child in. */
export function easeWhatIsTight(child: ChildInCare, day: DayNumber): void {
  for (const { limit, roomMm } of child.seen(day)) {
    const tight = limit.dimension.tightWithinMm.value;
    const [way] = adjustmentsLeftOn(limit, isoDate(day));
    if (roomMm >= tight || !way) continue;
    const step = way.stepMm ?? 1;
    const wanted = Math.ceil((EASED_TO * tight - roomMm) / step) * step;
    const mm = Math.min(wanted, Math.floor(way.leftMm / step) * step);
    if (mm > 0) child.adjust(day, limit.series, way.kind, mm);
  }
}
