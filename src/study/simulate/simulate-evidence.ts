import { median } from 'simple-statistics';
import { assessChild } from '../../forecast/assess-child.js';
import type { DeviceForecast } from '../../forecast/contract.js';
import { deviationScale } from '../../forecast/device/deviation.js';
import type { GrowthModel } from '../../growth/population/growth-model.js';
import { simulateChild } from '../../growth/prediction/simulate-child.js';
import type { ChildRecord } from '../../records/caseload.js';
import { addDaysIso, daysBetween, type IsoDate } from '../../records/dates.js';
import { deviceEventRecord, deviceRecord } from '../../records/device.js';
import { type MeasureId, technicalErrorAt } from '../../records/measure.js';
import { childRecord, measurementRecord } from '../../records/records.js';
import type { FitRules } from '../../rules/fit-rule.js';
import { type RandomStream, randomStream } from '../../statistics/random-stream.js';
import { hash } from '../backtest/clinic-noise.js';

const TODAY = '2026-03-02' as IsoDate;
const FAMILY = 'solid-afo';
const MONTH_DAYS = 30.4375;
/** Months before today at which the child was seen; the device was cast at CAST. */
const SEEN = [24, 18, 12, 6, 3, 0];
const CAST = 6;
const AHEAD = Array.from({ length: 31 }, (_, i) => i);
const AGES = { from: 5.5, to: 14 };
const MEASURES = ['foot_length', 'stature'] as const satisfies readonly MeasureId[];

/**
 * What more evidence on a worn device was said to be worth, and what it was worth, on children whose growth is known:
 * `children` ankle-foot orthoses cast half a year ago, each with room of its own, seen again
 * three months ago and today.
 */
export function simulateEvidence(model: GrowthModel, rules: FitRules, children: number, seed: number) {
  const readings: { before: number; promised: number; after: number }[] = [];
  const errors: [number, number, number][] = [];
  const toes = toesOf(rules);
  for (let i = 0; i < children; i++) {
    const child = inventChild(model, toes, randomStream(hash(`${seed}|evidence|${i}`)), i);
    const forecast = (upTo: number, verdicts: number) => assessed(child, upTo, verdicts, model, rules, seed);
    const width = (f: DeviceForecast) => f.readingWorth?.find((r) => r.series.measure === 'foot_length');
    const [old, fresh] = [forecast(3, 0), forecast(0, 0)];
    const [before, after] = [width(old), width(fresh)];
    if (before && after)
      readings.push({ before: before.nowDays, promised: before.thenDays, after: after.nowDays });
    const truth = outgrownDays(child);
    if (truth === null || child.roomMm(3) <= 0 || child.roomMm(0) <= 0) continue;
    const error = (f: DeviceForecast) =>
      Math.abs(Math.max(0, f.p50 ? daysBetween(TODAY, f.p50) : HORIZON) - truth);
    errors.push([error(fresh), error(forecast(0, 1)), error(forecast(0, 2))]);
  }
  return {
    ...{ children, seed },
    // One more reading of the foot: P10 to P90 before, promised on the average, and after it was made; means.
    reading: {
      devices: readings.length,
      beforeDays: Math.round(mean(readings.map((r) => r.before))),
      promisedDays: Math.round(mean(readings.map((r) => r.promised))),
      afterDays: Math.round(mean(readings.map((r) => r.after))),
      seDays: tenth(standardError(readings.map((r) => r.after - r.promised))),
    },
    // How near P50 came to the day the device was really outgrown, after none, one and two visits that judged its fit.
    visits: [0, 1, 2].map((judged) => ({
      judged,
      devices: errors.length,
      medianErrorDays: tenth(median(errors.map((e) => e[judged]))),
      meanErrorDays: tenth(mean(errors.map((e) => e[judged]))),
      // Against none, device by device.
      gainDays: tenth(mean(errors.map((e) => e[judged] - e[0]))),
      seDays: tenth(standardError(errors.map((e) => e[judged] - e[0]))),
    })),
  };
}

/** What the rule says of the toes. */
function toesOf(rules: FitRules) {
  const toes = rules.get(FAMILY)?.dimensions.find((d) => d.measure === 'foot_length');
  if (!toes) throw new Error(`${FAMILY} has no rule for the foot's length`);
  return {
    allowanceMm: toes.allowanceMm.value,
    toleranceMm: toes.toleranceMm.value,
    tightWithinMm: toes.tightWithinMm.value,
  };
}

type InventedChild = ReturnType<typeof inventChild>;

function inventChild(model: GrowthModel, toes: ReturnType<typeof toesOf>, stream: RandomStream, i: number) {
  const sex = i % 2 === 0 ? 'male' : 'female';
  const ageYears = AGES.from + (AGES.to - AGES.from) * stream.uniform();
  const months = [...SEEN, ...AHEAD.slice(1).map((m) => -m)];
  const sizes = simulateChild(
    model,
    sex,
    MEASURES,
    months.map((m) => ageYears - m / 12),
    stream,
  );
  const size = (measure: (typeof MEASURES)[number], monthsAgo: number) =>
    sizes[months.indexOf(monthsAgo)][measure] as number;
  const errors = new Map(
    SEEN.flatMap((m) =>
      MEASURES.map((id) => [`${id}/${m}`, technicalErrorAt(id, ageYears) * stream.normal()] as const),
    ),
  );
  const own = deviationScale(toes.toleranceMm, stream.uniform()) * stream.normal();
  const eye = new Map(SEEN.map((m) => [m, toes.toleranceMm * stream.normal()]));
  // True room at the toes, negative months being ahead.
  const roomMm = (m: number) => toes.allowanceMm + own - size('foot_length', m) + size('foot_length', CAST);
  return {
    ...{ sex, ageYears, roomMm },
    read: (id: (typeof MEASURES)[number], m: number) =>
      Math.round(size(id, m) + (errors.get(`${id}/${m}`) as number)),
    verdict: (m: number) =>
      roomMm(m) < Math.max(0, toes.tightWithinMm + (eye.get(m) as number)) ? 'tight' : 'good',
  };
}

const HORIZON = Math.round(AHEAD[AHEAD.length - 1] * MONTH_DAYS);

/** Days from today until the room is gone; null where it lasts beyond the horizon. */
function outgrownDays({ roomMm }: InventedChild): number | null {
  const month = AHEAD.find((m) => m > 0 && roomMm(-m) <= 0);
  if (month === undefined) return null;
  const [before, after] = [roomMm(-(month - 1)), roomMm(-month)];
  return (month - 1 + before / (before - after)) * MONTH_DAYS;
}

function assessed(
  child: InventedChild,
  upTo: number,
  verdicts: number,
  model: GrowthModel,
  rules: FitRules,
  seed: number,
): DeviceForecast {
  const day = (monthsAgo: number) => addDaysIso(TODAY, -Math.round(monthsAgo * MONTH_DAYS));
  const childId = 'invented';
  const record: ChildRecord = {
    child: childRecord.parse({ id: childId, sex: child.sex, birthDate: day(child.ageYears * 12) }),
    measurements: SEEN.filter((m) => m >= upTo).flatMap((m) =>
      MEASURES.map((measure) =>
        measurementRecord.parse({
          ...{ id: `${measure} ${m}`, childId, measure, date: day(m), value: child.read(measure, m) },
          side: measure === 'foot_length' ? 'left' : 'none',
        }),
      ),
    ),
    markers: [],
    skinChecks: [],
    devices: [
      deviceRecord.parse({
        ...{ id: 'device', childId, family: FAMILY, side: 'left' },
        ...{ castDate: day(CAST), fittedDate: day(CAST - 0.7) },
      }),
    ],
    events: [0, 3].slice(0, verdicts).map((m) =>
      deviceEventRecord.parse({
        ...{
          id: `verdict ${m}`,
          deviceId: 'device',
          date: day(m),
          kind: 'verdict',
          verdict: child.verdict(m),
          measure: 'foot_length',
        },
      }),
    ),
    jobs: [],
  };
  return assessChild(record, { today: TODAY, model, rules, seed, draws: DRAWS }).forecasts[0];
}
const DRAWS = 512;

const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / Math.max(1, values.length);
const standardError = (values: readonly number[]) => {
  const middle = mean(values);
  return Math.sqrt(mean(values.map((v) => (v - middle) ** 2)) / Math.max(1, values.length - 1));
};
const tenth = (v: number) => Math.round(10 * v) / 10;
