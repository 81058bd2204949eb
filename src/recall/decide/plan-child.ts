import type { DeviceForecast, Flag } from '../../forecast/contract.js';
import type { ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import type { FamilyRule, FitRules } from '../../rules/fit-rule.js';
import type { StageDurations } from '../../turnaround/expected-fitting.js';
import type { DeviceDecision, RecallEntry, ReplacementInProgress, TurnaroundEstimate } from '../contract.js';
import { acceptedChance, harmADay } from './accepted-chance.js';
import { decideDevice } from './decide-device.js';
import type { DeviceQuestion } from './device-facts.js';
import { lastSeen } from './last-seen.js';
import type { RecallSettings } from './recall-settings.js';
import { beingMade, type Replacement, replacementInProgress } from './replacement-in-progress.js';
import { replacementStatus } from './replacement-status.js';
import { successorOf } from './successor-of.js';
import { castsJoinUntil, isWanted, visitOf } from './visit-of.js';

/** What recall reads of an assessment; the forecast room's own result fits. */
export interface RecallAssessment {
  readonly childId: string;
  readonly forecasts: readonly DeviceForecast[];
  readonly flags?: readonly Flag[];
}

export type TurnaroundOf = (family: string) => TurnaroundEstimate;

export interface PlanContext {
  readonly rules: FitRules;
  readonly turnaroundOf: TurnaroundOf;
  readonly history: StageDurations;
  readonly today: IsoDate;
  readonly until: IsoDate;
  readonly settings: RecallSettings;
}

export interface ChildPlan {
  /** Every device in use; where none is, an ended one under which something was seen that cannot wait. */
  readonly decisions: readonly DeviceDecision[];
  /** The child's visit; null where there is no such device. */
  readonly entry: RecallEntry | null;
  /** Wanted by the last day looked ahead to. */
  readonly due: boolean;
  readonly inProgress: readonly ReplacementInProgress[];
}

/** One child: what each device in use asks for, and the one visit that does it. */
export function planChild(
  record: ChildRecord,
  assessment: RecallAssessment | undefined,
  context: PlanContext,
): ChildPlan {
  const { today, until, settings } = context;
  const questions = questionsOf(record, assessment, context);
  const inProgress = questions.flatMap((q) => q.replacement ?? []);
  if (record.child.status !== 'active' || questions.length === 0)
    return { decisions: [], entry: null, due: false, inProgress: [] };
  const first = questions.map((q) => decideDevice(q));
  const joinUntil = castsJoinUntil(
    first.filter((d) => isWanted(d, until)),
    until,
    settings.combineWithinDays,
  );
  const decisions =
    joinUntil !== null && joinUntil > until
      ? questions.map((q, i) => (isWanted(first[i], until) ? first[i] : joined(q, first[i], joinUntil)))
      : first;
  const limit = joinUntil !== null && joinUntil > until ? joinUntil : until;
  const wanted = decisions.filter(
    (d, i) => isWanted(first[i], until) || (d !== first[i] && isWanted(d, limit)),
  );
  const child = {
    childId: record.child.id,
    siblingGroup: record.child.siblingGroup,
    lastSeen: lastSeen(record, today),
  };
  const due = wanted.length > 0;
  const entry = due
    ? visitOf(
        wanted,
        decisions.filter((d) => !wanted.includes(d)),
        child,
        today,
        // What only comes along gives the visit neither its name nor its sentence.
        wanted.filter((d) => first.includes(d)),
      )
    : visitOf(decisions, [], child, today);
  return { decisions, entry, due, inProgress };
}

/** The decision looked at further ahead, where that makes it a cast that can come along; else as it was. */
function joined(question: DeviceQuestion, alone: DeviceDecision, until: IsoDate): DeviceDecision {
  const ahead = decideDevice({ ...question, until });
  return ahead.action === 'cast' || ahead.action === 'check' ? ahead : alone;
}

function questionsOf(
  record: ChildRecord,
  assessment: RecallAssessment | undefined,
  { rules, turnaroundOf, history, today, until, settings }: PlanContext,
): DeviceQuestion[] {
  const forecasts = new Map(assessment?.forecasts.map((f) => [f.deviceId, f]));
  const accepted = (rule: FamilyRule | null) =>
    acceptedChance(harmADay(rule, record.child.insensateSkin, settings), settings);
  const about = (
    device: Device,
    forecast: DeviceForecast | null,
    next: Replacement | null,
  ): DeviceQuestion => {
    const rule = rules.get(device.family) ?? null;
    const turnaround = turnaroundOf(device.family);
    return {
      record,
      device,
      rule,
      forecast,
      flags: assessment?.flags ?? [],
      turnaround,
      replacement:
        next && replacementStatus(device, forecast, next, turnaround, history, rules, today, accepted(rule)),
      successor: successorOf(device, record, today),
      today,
      until,
      settings,
    };
  };
  const worn = record.devices.filter(
    (d) => d.status === 'worn' && d.castDate <= today && forecasts.get(d.id)?.outcome !== 'not-in-use',
  );
  const questions = worn.map((device) =>
    about(device, forecasts.get(device.id) ?? null, replacementInProgress(device, record, rules, today)),
  );
  // A device that is being made in nobody's place is followed too: a cast that is never fitted must not be forgotten.
  const followed = new Set(questions.flatMap((q) => q.replacement?.replacementDeviceId ?? []));
  const made = record.devices.filter(
    (d) => d.status === 'ordered' && d.castDate <= today && !followed.has(d.id),
  );
  const inUse = [...questions, ...made.map((device) => about(device, null, beingMade(device, record)))];
  // Nothing is worn any more, but what was seen under the last device still is of the child.
  const seenUnder = (device: Device) =>
    assessment?.flags?.some((f) => f.severity === 'act-now' && f.deviceId === device.id);
  return inUse.length > 0
    ? inUse
    : record.devices.filter(seenUnder).map((device) => about(device, null, null));
}
