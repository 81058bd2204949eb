import { decimalAgeYears } from '../../records/age.js';
import { type DayNumber, dayNumber, type IsoDate, isoDate } from '../../records/dates.js';
import { measures, seriesKey } from '../../records/measure.js';
import { adjustmentsLeftOn, type DimensionLimit } from '../../rules/dimension-limits.js';
import { type AdjustmentDue, type DimensionRoom, type ForecastOutcome, reachedOn } from '../contract.js';
import { type Futures, followedSeries } from '../futures.js';
import { staleAfterDays } from '../stale-after.js';
import { chanceOn, dayOfChance } from './chance-by-day.js';
import { type DeviceCourse, deviceCourse } from './device-course.js';
import { type DevicePlan, readingAgeDays } from './device-plan.js';
import type { DeviceAnswer, DeviceQuestion } from './device-question.js';
import { dimensionRoom } from './dimension-room.js';
import { emptyForecast } from './empty-forecast.js';
import { explainForecast } from './explain-forecast.js';
import type { Halt } from './growth-stopped.js';
import { readingNeeded } from './reading-needed.js';
import { sizesOn } from './sizes-on.js';
import { usualLife } from './usual-life.js';
import { worthOfReadings } from './worth-of-one-more.js';

/** Full-grown: growth to come hardly ever reaches the room left, and seldom as much as a clinic would notice, mm. */
const MEASURABLE_MM = 3;
const NOTICED_MM = 8;
const SELDOM = 0.2;
const NEGLIGIBLE_CHANCE = 0.05;

/** First-passage forecast of one device from a child's possible futures. */
export function forecastDevice(question: DeviceQuestion): DeviceAnswer {
  const { record, plan, posterior, today, seed } = question;
  const { limits, search, history } = plan;
  const course = question.once(`course of ${plan.device.id}`, () => deviceCourse(question));
  const { halts, futures, castIndex, drawn, chance, dayOf, said, drivers } = course;
  const { deviations } = drawn;
  const now = dayNumber(today);
  const chanceNow = said !== null ? 1 : chanceOn(search, chance, now);
  const end = chance[search.length - 1] ?? 0;
  const room = limits.map((limit, d) =>
    dimensionRoom(limit, futures, castIndex, deviations[d], now, plan.read),
  );
  const grownUp = isGrownUp(question, room, halts);
  const staleDays = readingAgeDays(plan, today);
  const stale = staleDays > staleAfterDays(plan.rule, decimalAgeYears(record.child.birthDate, today));
  const outcome = outcomeOf(chanceNow, end, grownUp, stale);
  const date = (p: number): IsoDate | null => {
    if (said !== null) return said;
    const day = dayOfChance(search, chance, p);
    if (day === null || outcome === 'full-grown') return null;
    return outcome === 'already-outgrown' && day > now ? null : isoDate(day);
  };
  const withChances = outcome !== 'full-grown';
  const verdict = plan.judgements.findLast((j) => j.verdict !== null)?.verdict ?? null;
  const facts = {
    ...emptyForecast(record, plan.device, today, seed, posterior),
    outcome,
    p10: date(0.1),
    p50: date(0.5),
    p90: date(0.9),
    dates: withChances ? search.map((d) => isoDate(d)) : [],
    probabilityOutgrown: withChances ? Array.from(chance) : [],
    drivers,
    room,
    adjustments: adjustmentsDue(plan, course, today),
    parts: course.parts,
    readingWorth: outcome === 'forecast' ? worthOfReadings(question, futures, dayOf) : [],
    readingNeeded: readingNeeded(
      record,
      plan,
      drivers[0]?.series ?? limits[0]?.series ?? null,
      question.suggestions,
      today,
    ),
    lastVerdict: verdict && {
      date: verdict.date,
      verdict: verdict.verdict,
      measure: verdict.measure,
      side: verdict.side,
    },
    usualLifeEnds: usualLife(plan, record.child.birthDate),
    replacementInProgress: history.pendingCast !== null,
    probabilityOutgrownNow: chanceNow,
  } as const;
  return {
    forecast: { ...facts, explanation: explainForecast(facts, plan, record, staleDays) },
    surprise: drawn.surprise,
  };
}

export function outcomeOf(now: number, end: number, grownUp: boolean, stale: boolean): ForecastOutcome {
  if (now >= 0.5) return 'already-outgrown';
  if (grownUp) return 'full-grown';
  if (stale) return 'too-few-measurements';
  return end < 0.1 ? 'beyond-horizon' : 'forecast';
}

/** No length that limits the device will measurably grow: by the model, or because its readings have stopped. */
function isGrownUp(
  question: DeviceQuestion,
  room: readonly DimensionRoom[],
  halts: ReadonlyMap<string, Halt>,
): boolean {
  const { plan, posterior, today } = question;
  const further = (l: DimensionLimit, mm: number) =>
    posterior.chanceOfFurtherGrowth(followedSeries(l.series), dayNumber(today), mm);
  // Most children's own draws grow by more before the horizon ends: the whole of growth is seldom asked about.
  const surelyGrows = (l: DimensionLimit, mm: number, seldom: number) =>
    growsBy(question.futures, l, dayNumber(today), mm) >= seldom + SURELY_MORE;
  const skeletal = plan.limits.flatMap((l, d) => (measures[l.series.measure].skeletal ? [d] : []));
  const open = skeletal.filter((d) => halts.get(seriesKey(plan.limits[d].series))?.proved !== true);
  const beyondRoom = (d: number) => Math.max(MEASURABLE_MM, room[d].roomMm);
  return (
    skeletal.length > 0 &&
    !open.some((d) => surelyGrows(plan.limits[d], NOTICED_MM, SELDOM)) &&
    !open.some((d) => surelyGrows(plan.limits[d], beyondRoom(d), NEGLIGIBLE_CHANCE)) &&
    open.every(
      (d) =>
        further(plan.limits[d], NOTICED_MM) < SELDOM &&
        further(plan.limits[d], beyondRoom(d)) < NEGLIGIBLE_CHANCE,
    )
  );
}

/** By so much more than a chance the share of a few hundred draws lies above it only where the model's does too. */
const SURELY_MORE = 0.1;

/** Share of the draws in which a limit's size grows by so much from a day to the horizon's end. */
function growsBy(
  { paths, days, draws }: Futures,
  { series }: DimensionLimit,
  day: DayNumber,
  mm: number,
): number {
  const path = paths.get(seriesKey(followedSeries(series)));
  if (!path || day > days[days.length - 1]) return 0;
  const now = sizesOn({ paths, days, draws }, path, day);
  let more = 0;
  for (let i = 0; i < draws; i++) if (path[(i + 1) * days.length - 1] - now[i] > mm) more++;
  return more / draws;
}

/** Every limit that a strap, a flare or a bar still answers, soonest first: the first way to be tried. */
function adjustmentsDue(
  { limits, search }: DevicePlan,
  { wanted }: DeviceCourse,
  today: IsoDate,
): AdjustmentDue[] {
  const due = limits.flatMap((limit, d): AdjustmentDue[] => {
    const way = adjustmentsLeftOn(limit, today)[0];
    const due = wanted[d];
    if (!way || !due) return [];
    const { chance, days } = due;
    return [
      {
        series: limit.series,
        kind: way.kind,
        stepMm: way.stepMm,
        extensionLeftMm: way.leftMm,
        dueNow: chanceOn(search, chance, dayNumber(today)) >= 0.5,
        p10: reachedOn(days, 0.1),
        p50: reachedOn(days, 0.5),
        days,
      },
    ];
  });
  const soonest = (a: AdjustmentDue) => a.p50 ?? '9999';
  return due.sort((a, b) => soonest(a).localeCompare(soonest(b)));
}
