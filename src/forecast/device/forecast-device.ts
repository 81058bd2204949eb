import type { ChildPosterior } from '../../growth/contract.js';
import { decimalAgeYears } from '../../records/age.js';
import type { ChildRecord } from '../../records/caseload.js';
import { dayNumber, daysBetween, type IsoDate, isoDate } from '../../records/dates.js';
import { measures, seriesKey } from '../../records/measure.js';
import { type DimensionLimit, extensionLeftOn, limitOn } from '../../rules/dimension-limits.js';
import { randomStream } from '../../statistics/random-stream.js';
import { childSeed } from '../child-seed.js';
import type { AdjustmentDue, DeviceForecast, DimensionRoom } from '../contract.js';
import { type Futures, followedSeries } from '../futures.js';
import { staleAfterDays } from '../stale-after.js';
import type { DevicePlan } from './device-plan.js';
import { emptyForecast } from './empty-forecast.js';
import { explainForecast } from './explain-forecast.js';
import { dayOfChance, firstPassage, type PassageLimit, passageChance } from './first-passage.js';
import { usualLife } from './usual-life.js';
import { type WeighedDraws, weighDraws } from './weigh-draws.js';
import { weightedMoments, weightedQuantiles } from './weighted-quantile.js';

/** Full-grown: growth to come hardly ever reaches the room left, and seldom as much as a clinic would notice, mm. */
const MEASURABLE_MM = 3;
const NOTICED_MM = 8;
const SELDOM = 0.2;
const NEGLIGIBLE_CHANCE = 0.05;
/** Some devices' limits lie far from the rule: this share deviates this many times as much (common practice, no source). */
const FAR_SHARE = 0.05;
const FAR_FACTOR = 3;

export interface DeviceAnswer {
  readonly forecast: DeviceForecast;
  readonly surprise: WeighedDraws['surprise'];
}

/** Per draw: how far this device's real limit lies from the stated one, mm. */
function drawDeviations(plan: DevicePlan, draws: number, seed: number): Float64Array[] {
  const chance = randomStream(childSeed(seed, plan.device.id));
  return plan.limits.map(({ toleranceMm }) =>
    Float64Array.from({ length: draws }, () => {
      const factor = chance.uniform() < FAR_SHARE ? FAR_FACTOR : 1;
      return toleranceMm * factor * chance.normal();
    }),
  );
}

/** First-passage forecast of one device from a child's possible futures. */
export function forecastDevice(
  record: ChildRecord,
  plan: DevicePlan,
  posterior: ChildPosterior,
  futures: Futures,
  today: IsoDate,
  seed: number,
): DeviceAnswer {
  const { limits, search, todayIndex, history } = plan;
  const { draws, days } = futures;
  const castIndex = days.indexOf(dayNumber(history.castDate));
  const nowIndex = days.indexOf(dayNumber(today));
  const deviations = drawDeviations(plan, draws, seed);
  const { weights, surprise } = weighDraws(futures, limits, deviations, castIndex, plan.verdicts);
  const dates = search.map((d) => isoDate(d));

  const passageLimits = (withTravel: boolean): PassageLimit[] =>
    limits.map((limit, d) => ({
      path: futures.paths.get(seriesKey(limit.series))!,
      castIndex: limit.kind === 'growth' ? castIndex : null,
      limitMm: Float64Array.from(
        dates,
        (on) => limitOn(limit, on) + (withTravel ? extensionLeftOn(limit, on) : 0),
      ),
      deviationMm: deviations[d],
    }));
  const lines = passageLimits(true);
  const passage = firstPassage(days, search, lines, draws);
  const chance = passageChance(passage, weights, search.length);
  const now = chance[todayIndex];
  const end = chance[search.length - 1];

  const shares = new Float64Array(limits.length);
  for (let i = 0; i < draws; i++) if (passage.by[i] >= 0) shares[passage.by[i]] += weights[i];
  const drivers = limits
    .map((l, d) => ({ series: l.series, share: end > 0 ? shares[d] / end : 0 }))
    .filter((d) => d.share > 0)
    .sort((a, b) => b.share - a.share);

  const room = limits.map((limit, d): DimensionRoom => {
    const { path } = lines[d];
    const grown = new Float64Array(draws);
    const left = new Float64Array(draws);
    const atCast = new Float64Array(draws);
    const extensionLeftMm = extensionLeftOn(limit, today);
    const line = limitOn(limit, today) + extensionLeftMm;
    for (let i = 0; i < draws; i++) {
      atCast[i] = path[i * days.length + castIndex];
      grown[i] = path[i * days.length + nowIndex] - atCast[i];
      left[i] = line + deviations[d][i] - grown[i] - (limit.kind === 'size' ? atCast[i] : 0);
    }
    const g = weightedMoments(grown, weights);
    const cast = weightedMoments(atCast, weights).mean;
    const [roomLowMm, roomHighMm] = weightedQuantiles(left, weights, [0.1, 0.9]);
    const allowanceMm = limit.kind === 'size' ? line - cast : line;
    return {
      series: limit.series,
      allowanceMm,
      extensionLeftMm,
      grownMm: g.mean,
      grownSdMm: g.sd,
      roomMm: weightedMoments(left, weights).mean,
      roomLowMm,
      roomHighMm,
      limitMm: cast + allowanceMm,
    };
  });

  const adjustments = limits.flatMap((limit, d): AdjustmentDue[] => {
    const extensionLeftMm = room[d].extensionLeftMm ?? 0;
    // A thigh section lifted by the knee's bar has no travel of its own to move.
    if (extensionLeftMm <= 0 || !plan.device.extensionRangeMm[limit.series.measure]) return [];
    const ahead = search.slice(todayIndex);
    const line = passageLimits(false)[d];
    const only = [{ ...line, limitMm: line.limitMm.slice(todayIndex) }];
    const due = passageChance(firstPassage(days, ahead, only, draws), weights, ahead.length);
    const at = (p: number) => {
      const day = dayOfChance(ahead, due, p);
      return day === null ? null : isoDate(day);
    };
    return [{ series: limit.series, dueNow: due[0] >= 0.5, p10: at(0.1), p50: at(0.5), extensionLeftMm }];
  });

  const skeletal = limits.filter((l) => measures[l.series.measure].skeletal);
  const further = (l: DimensionLimit, mm: number) =>
    posterior.chanceOfFurtherGrowth(followedSeries(l.series), dayNumber(today), mm);
  const grownUp =
    skeletal.length > 0 &&
    limits.every(
      (l, d) =>
        !skeletal.includes(l) ||
        (further(l, Math.max(MEASURABLE_MM, room[d].roomMm)) < NEGLIGIBLE_CHANCE &&
          further(l, NOTICED_MM) < SELDOM),
    );
  const lastMeasured = record.measurements.reduce<IsoDate | null>(
    (last, m) => (last === null || m.date > last ? m.date : last),
    null,
  );
  const staleDays = lastMeasured === null ? Number.POSITIVE_INFINITY : daysBetween(lastMeasured, today);
  const stale = staleDays > staleAfterDays(plan.rule, decimalAgeYears(record.child.birthDate, today));

  const outcome =
    history.judgedOutgrown !== null && !canBeExtended(plan, room)
      ? 'already-outgrown'
      : now >= 0.5
        ? 'already-outgrown'
        : grownUp
          ? 'full-grown'
          : stale
            ? 'too-few-measurements'
            : end < 0.1
              ? 'beyond-horizon'
              : 'forecast';
  const judgedOn = outcome === 'already-outgrown' ? (history.judgedOutgrown?.date ?? null) : null;
  const date = (p: number): IsoDate | null => {
    if (judgedOn !== null) return judgedOn;
    const day = dayOfChance(search, chance, p);
    if (day === null || outcome === 'full-grown') return null;
    return outcome === 'already-outgrown' && day > dayNumber(today) ? null : isoDate(day);
  };
  const withChances = judgedOn === null && outcome !== 'full-grown';
  const facts = {
    ...emptyForecast(record, plan.device, today, seed, posterior),
    outcome,
    p10: date(0.1),
    p50: date(0.5),
    p90: date(0.9),
    dates: withChances ? dates.slice(todayIndex) : [],
    probabilityOutgrown: withChances ? Array.from(chance.slice(todayIndex)) : [],
    drivers,
    room,
    adjustments,
    usualLifeEnds: usualLife(plan, record.child.birthDate),
    replacementInProgress: history.pendingCast !== null,
    probabilityOutgrownNow: judgedOn !== null ? 1 : now,
  } as const;
  return {
    forecast: { ...facts, explanation: explainForecast(facts, plan, record, staleDays) },
    surprise,
  };
}

/** A verdict 'outgrown' on a joint whose bars still have travel asks for an adjustment, not a new device. */
function canBeExtended(plan: DevicePlan, room: readonly DimensionRoom[]): boolean {
  const measure = plan.history.judgedOutgrown?.measure ?? null;
  return measure !== null && room.some((r) => r.series.measure === measure && (r.extensionLeftMm ?? 0) > 0);
}
