import type { ChildRecord } from '../records/caseload.js';
import { daysBetween, type IsoDate } from '../records/dates.js';
import type { FitRules } from '../rules/fit-rule.js';
import { type AssessmentContext, assessChild, type ChildAssessment } from './assess-child.js';
import type { DeviceForecast, DimensionRoom } from './contract.js';
import { planDevice, readingAgeDays } from './device/device-plan.js';
import { onceByName } from './device/device-question.js';
import { explainForecast } from './device/explain-forecast.js';
import { modelFollows } from './futures.js';
import { isUnanswered } from './readings-in-question.js';
import { recordUntil } from './record-until.js';

/** What a night moves on by a little: the only figures in which an assessment differs on the last day it speaks for. */
const MOVING = ['grownMm', 'grownSdMm', 'roomMm', 'roomLowMm', 'roomHighMm'] as const;
type Figures = Pick<DimensionRoom, (typeof MOVING)[number]>;
type Moved = Pick<DeviceForecast, 'probabilityOutgrownNow'> & {
  readonly room: readonly Figures[];
};
/** The last day an assessment speaks for, and its figures then, by forecast. */
export interface LastDay {
  readonly today: IsoDate;
  readonly forecasts: readonly Moved[];
}
export type Spanning = Pick<ChildAssessment, 'forecasts' | 'flags' | 'suggestions'> & {
  readonly lastDay?: LastDay;
};

/** Said of today alone, and worked out again for each day; what a reading is worth stays as it was for the few days. */
const OF_THE_DAY = new Set<string>([
  ...MOVING,
  'today',
  'probabilityOutgrownNow',
  'explanation',
  'readingWorth',
]);
const lasting = (value: unknown) => JSON.stringify(value, (key, v) => (OF_THE_DAY.has(key) ? undefined : v));

/**
 * A child's assessment that speaks for some days: it is made on the first and on the last of them from one fit of the
 * child's growth, and where nothing but sizes has moved on meanwhile it is told on every day between by `onDay`.
 */
export function assessUntil(
  record: ChildRecord,
  context: AssessmentContext,
  last: IsoDate,
): ChildAssessment & Spanning {
  if (last <= context.today || !isSame(record, context.today, last)) return assessChild(record, context);
  const once = onceByName();
  const first = assessChild(record, { ...context, once });
  const then = assessChild(record, { ...context, today: last, once });
  const said = ({ forecasts, flags, suggestions }: ChildAssessment) => [
    lasting([forecasts, flags, suggestions]),
    ...forecasts.map((f) => (keepsWords(f) ? f.explanation : '')),
  ];
  if (said(first).join('\n') !== said(then).join('\n')) return first;
  return { ...first, lastDay: { today: last, forecasts: then.forecasts.map(movedOf) } };
}

/** Nothing in its words moves; or it is told without a reading in question, which is another record than this. */
const keepsWords = (f: DeviceForecast) => f.room.length === 0 || isUnanswered(f);

const isSame = (record: ChildRecord, first: IsoDate, last: IsoDate) =>
  JSON.stringify(recordUntil(record, first)) === JSON.stringify(recordUntil(record, last));

const figures = (of: (name: keyof Figures) => number) =>
  Object.fromEntries(MOVING.map((name) => [name, of(name)])) as unknown as Figures;

const movedOf = ({ probabilityOutgrownNow, room }: DeviceForecast): Moved => ({
  probabilityOutgrownNow,
  room: room.map((r) => figures((name) => r[name])),
});

/** The same assessment as it reads on a day that it speaks for; null on any other. Paths are straight between their knots. */
export function onDay<A extends Spanning & { readonly today: IsoDate }>(
  assessment: A,
  fullRecord: ChildRecord,
  { rules, model }: { readonly rules: FitRules; readonly model: AssessmentContext['model'] },
  today: IsoDate,
): A | null {
  const { today: first, lastDay } = assessment;
  if (today === first) return assessment;
  if (!lastDay || today < first || today > lastDay.today) return null;
  const share = daysBetween(first, today) / daysBetween(first, lastDay.today);
  const between = (a: number, b: number) => a + share * (b - a);
  const record = recordUntil(fullRecord, today);
  const follows = modelFollows(model, record.measurements);
  const forecasts = assessment.forecasts.map((f, i): DeviceForecast => {
    const last = lastDay.forecasts[i];
    const facts = {
      ...f,
      today,
      probabilityOutgrownNow: between(f.probabilityOutgrownNow, last.probabilityOutgrownNow),
      room: f.room.map((r, d) => ({ ...r, ...figures((name) => between(r[name], last.room[d][name])) })),
    };
    const device = record.devices.find(({ id }) => id === f.deviceId);
    const rule = rules.get(f.family);
    if (keepsWords(f) || !device || !rule) return facts;
    const plan = planDevice(record, device, rule, follows);
    return { ...facts, explanation: explainForecast(facts, plan, record, readingAgeDays(plan, today)) };
  });
  return { ...assessment, today, forecasts };
}
