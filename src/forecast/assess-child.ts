import type { ChildPosterior, GrowthOutcome } from '../growth/contract.js';
import type { GrowthModel } from '../growth/population/growth-model.js';
import { fitChild } from '../growth/prediction/fit-child.js';
import type { ChildRecord } from '../records/caseload.js';
import type { IsoDate } from '../records/dates.js';
import { deviceHistory } from '../records/device-history.js';
import type { FitRules } from '../rules/fit-rule.js';
import { standingCautions } from './cautions.js';
import { childSeed } from './child-seed.js';
import type { DataSuggestion, DeviceForecast, Flag } from './contract.js';
import { type DevicePlan, planDevice } from './device/device-plan.js';
import { type DeviceAnswer, everyTime, type Once } from './device/device-question.js';
import { emptyForecast } from './device/empty-forecast.js';
import { forecastDevice } from './device/forecast-device.js';
import { adultOutcome, type NamedOutcome, namedOutcome } from './device/named-outcome.js';
import { usualLife } from './device/usual-life.js';
import { findFindings } from './flags/find-findings.js';
import { findFlags, mostUrgentFirst, withoutSlips } from './flags/find-flags.js';
import { findingFlags } from './flags/finding-flags.js';
import { headGrowthFlags } from './flags/head-growth.js';
import { modelFollows, sampleFutures } from './futures.js';
import { growthInput } from './growth-input.js';
import { earlierOf, isUnanswered, readingsInQuestion } from './readings-in-question.js';
import { recordUntil } from './record-until.js';
import { findSuggestions } from './suggestions/find-suggestions.js';

export interface AssessmentContext {
  readonly today: IsoDate;
  readonly model: GrowthModel;
  readonly rules: FitRules;
  readonly seed: number;
  /**
   * How exact the dates are: as with so many simulated futures that each have a device of their own. A device's own
   * deviation is not drawn but counted in whole (`passageCurve`), so that fewer futures do. Against 20,000, 512
   * move P10 and P50 by 1 day in the median (159 devices, invented).
   */
  readonly draws: number;
  /** Who asks again and again of the same readings may remember how growth was fitted to them. */
  readonly fit?: typeof fitChild;
  /** Given where the same record is asked about on several days: what hangs on none of them is worked out once. */
  readonly once?: Once;
  /** Hears why a child could not be assessed; the child gets the outcome 'not-computed'. */
  readonly failed?: (error: unknown) => void;
}

export interface ChildAssessment {
  readonly childId: string;
  readonly growth: GrowthOutcome;
  readonly forecasts: readonly DeviceForecast[];
  readonly flags: readonly Flag[];
  readonly suggestions: readonly DataSuggestion[];
}

/**
 * Everything the forecast room has to say of one child: growth, a forecast per device in the order of the record, flags
 * that growth does not explain, and likely slips in the data. Rows dated after `today` are ignored. A record that the sums
 * cannot take (a reading beyond all measure) has a named outcome instead of dates, so that it never costs another child
 * its forecast.
 */
export function assessChild(fullRecord: ChildRecord, context: AssessmentContext): ChildAssessment {
  const record = recordUntil(fullRecord, context.today);
  try {
    const view = viewOf(record, context);
    const forecasts = withoutDoubt(forecastsOf(view, context), view, context);
    for (const f of forecasts)
      if (!f.probabilityOutgrown.every(Number.isFinite) || !f.room.every((r) => Number.isFinite(r.roomMm)))
        throw new Error('a forecast is not a number');
    const { growth, suggestions } = view;
    const flags = findFlags({
      ...view,
      ...context,
      findings: findFindings(record, context.rules, context.today),
    });
    return { childId: record.child.id, growth, forecasts, flags, suggestions };
  } catch (error) {
    context.failed?.(error);
    return notAssessed(record, context);
  }
}

/** Where a device's answer rests on a reading that somebody is asked about, the date without it stands if it is earlier. */
function withoutDoubt(
  asRead: readonly DeviceForecast[],
  { record, suggestions }: ChildView,
  context: AssessmentContext,
): readonly DeviceForecast[] {
  const unanswered = new Set(asRead.filter(isUnanswered).map((f) => f.deviceId));
  if (unanswered.size === 0) return asRead;
  const devices = record.devices.filter((d) => unanswered.has(d.id));
  const others = readingsInQuestion(record, suggestions).map((readings) => {
    const measurements = record.measurements.filter((m) => !readings.some((r) => r.id === m.id));
    const without = readings.map((r) => r.id).join(' ');
    const once: Once = (name, work) => (context.once ?? everyTime)(`${name} without ${without}`, work);
    // What is asked about the others stays as it is.
    const others = suggestions.filter((s) => !readings.some((r) => s.measurementIds.includes(r.id)));
    const view = viewOf({ ...record, devices, measurements }, { ...context, once }, others);
    return { readings, byDevice: new Map(forecastsOf(view, context).map((f) => [f.deviceId, f])) };
  });
  return asRead.map((forecast) =>
    others.reduce((earliest, { readings, byDevice }) => {
      const other = byDevice.get(forecast.deviceId);
      return other ? earlierOf(earliest, other, readings) : earliest;
    }, forecast),
  );
}

/** What the skin checks say does not hang on the sums, and outranks every date: it is said all the same. */
function notAssessed(record: ChildRecord, { today, seed, rules }: AssessmentContext): ChildAssessment {
  const forecasts = record.devices.map((device): DeviceForecast => {
    const named = namedOutcome(record, device, deviceHistory(device, record.events), today);
    return { ...emptyForecast(record, device, today, seed, null), ...(named ?? notComputed) };
  });
  const findings = findFindings(record, rules, today);
  const seen = { record, today, posterior: null, plans: [], answers: new Map(), findings, rules };
  return {
    childId: record.child.id,
    growth: { kind: 'too-few-measurements', advice: notComputed.explanation },
    forecasts,
    flags: [...findingFlags(seen), ...standingCautions(record, today)].sort(mostUrgentFirst),
    suggestions: [],
  };
}

const notComputed: NamedOutcome = {
  outcome: 'not-computed',
  explanation:
    'This child could not be forecast: something in the record is far outside what can be. Check the readings and markers, and correct the one that cannot be; until then review by the calendar.',
};

/** What the readings say of a child's growth and of each device, before anything else is asked about. */
interface ChildView {
  readonly record: ChildRecord;
  readonly growth: GrowthOutcome;
  readonly posterior: ChildPosterior | null;
  readonly suggestions: readonly DataSuggestion[];
  readonly plans: readonly DevicePlan[];
  readonly answers: ReadonlyMap<string, DeviceAnswer>;
  /** Of the devices that growth says nothing of. */
  readonly named: ReadonlyMap<string, NamedOutcome>;
}

function viewOf(
  record: ChildRecord,
  context: AssessmentContext,
  asked?: readonly DataSuggestion[],
): ChildView {
  const { today, model, rules, fit: fitted = fitChild, once = everyTime } = context;
  const growth = once('growth', () => fitted(growthInput(record, model), model));
  const posterior = growth.kind === 'posterior' ? growth.posterior : null;
  const suggestions = asked ?? findSuggestions(record, posterior);
  const named = new Map<string, NamedOutcome>();
  const plans: DevicePlan[] = [];
  for (const device of record.devices) {
    const outcome = namedOutcome(record, device, deviceHistory(device, record.events), today);
    const rule = rules.get(device.family);
    if (outcome) named.set(device.id, outcome);
    else if (!rule) named.set(device.id, unknownFamily(device.family));
    else if (!posterior) named.set(device.id, withoutPosterior(growth));
    else {
      const plan = planDevice(record, device, rule, modelFollows(model, record.measurements));
      if (plan.limits.length > 0) plans.push(plan);
      else named.set(device.id, nothingToFollow);
    }
  }
  const answers = posterior ? answer(record, plans, posterior, suggestions, context) : new Map();
  return { record, growth, posterior, suggestions, plans, answers, named };
}

/** A forecast per device in the order of the record. */
function forecastsOf(view: ChildView, { today, rules, seed }: AssessmentContext): DeviceForecast[] {
  const { record, posterior, plans, answers, named } = view;
  return record.devices.map((device): DeviceForecast => {
    const base = emptyForecast(record, device, today, seed, posterior);
    const name = named.get(device.id);
    if (name) {
      const rule = rules.get(device.family);
      const history = deviceHistory(device, record.events);
      const usualLifeEnds =
        rule && name.outcome !== 'not-in-use' ? usualLife({ rule, history }, record.child.birthDate) : null;
      return { ...base, ...name, usualLifeEnds };
    }
    const plan = plans.find((p) => p.device.id === device.id);
    if (plan?.rule.region === 'head' && headGrowthFlags(withoutSlips(view)).length > 0)
      return { ...base, ...blockedByHead, usualLifeEnds: usualLife(plan, record.child.birthDate) };
    return { ...answers.get(device.id)!.forecast, seed };
  });
}

/** One draw of futures serves every device of the child, so that both sides live in the same future. */
function answer(
  record: ChildRecord,
  plans: readonly DevicePlan[],
  posterior: ChildPosterior,
  suggestions: readonly DataSuggestion[],
  context: AssessmentContext,
): Map<string, DeviceAnswer> {
  if (plans.length === 0) return new Map();
  const seed = childSeed(context.seed, record.child.id);
  const knots = [...new Set(plans.flatMap((p) => p.knots))].sort((a, b) => a - b);
  const series = plans.flatMap((p) => p.limits.map((l) => l.series));
  const { once = everyTime, model, draws, today } = context;
  const futures = once('futures', () =>
    sampleFutures(posterior, model, series, knots, futuresFor(draws), seed, record.measurements),
  );
  return new Map(
    plans.map((plan) => [
      plan.device.id,
      forecastDevice({ record, plan, posterior, futures, suggestions, today, seed, once }),
    ]),
  );
}

/** So many futures, of a device's every deviation, are as exact as all with one deviation each: measured against 20,000. */
const FUTURES_A_DRAW = 3 / 8;
const futuresFor = (draws: number) => 2 * Math.ceil((draws * FUTURES_A_DRAW) / 2);

const unknownFamily = (family: string): NamedOutcome => ({
  outcome: 'no-rule',
  explanation: `There is no fit rule for the family '${family}': add one, or choose a known family, to have a date.`,
});

const nothingToFollow: NamedOutcome = {
  outcome: 'too-few-measurements',
  explanation:
    'None of the dimensions that limit this device has been measured: measure them to have a date.',
};

const blockedByHead: NamedOutcome = {
  outcome: 'blocked',
  explanation:
    'No date is given: head size has moved across centiles. Measure again and have the child seen first; this is not a matter of a larger device.',
};

function withoutPosterior(growth: GrowthOutcome): NamedOutcome {
  if (growth.kind === 'past-reference-age') return adultOutcome;
  return {
    outcome: 'too-few-measurements',
    explanation: `Cannot forecast: ${growth.kind === 'too-few-measurements' ? growth.advice : 'no measurements yet.'}`,
  };
}
