import { createHash } from 'node:crypto';
import type { FastifyRequest } from 'fastify';
import { childDecisions, turnaroundsOf } from '../../clinic/clinic-list.js';
import type { DeviceForecast } from '../../forecast/contract.js';
import { growthInput } from '../../forecast/growth-input.js';
import { growthToDraw } from '../../forecast/growth-to-draw.js';
import { recordUntil } from '../../forecast/record-until.js';
import type { ChildPosterior } from '../../growth/contract.js';
import { loadGrowthModel } from '../../growth/population/model.js';
import type { DeviceDecision, TurnaroundEstimate } from '../../recall/contract.js';
import type { ChildRecord } from '../../records/caseload.js';
import type { Device } from '../../records/device.js';
import { deviceHistory } from '../../records/device-history.js';
import { inReadingOrder } from '../../records/device-order.js';
import { type HipAngle, lastHipAngle } from '../../records/hip-angle.js';
import type { FitRules } from '../../rules/fit-rule.js';
import { lastUsed } from '../../statistics/last-used.js';
import type { Actor, StoredAssessment } from '../../store/contract.js';
import { withDecisionSentences } from '../../words/reason-sentence.js';
import { actorOf } from '../access.js';
import { assessedAsOf } from '../assessor.js';
import type { ServiceDeps } from '../dependencies.js';
import { recallSettingsOf } from '../recall-settings-of.js';

/** One device in use with everything a page says of it. */
export interface DeviceView {
  readonly device: Device;
  readonly forecast: DeviceForecast;
  /** Null for a device that is being made. */
  readonly decision: DeviceDecision | null;
  readonly turnaround: TurnaroundEstimate;
  readonly hipAngle: HipAngle | null;
}

export interface ChildView {
  readonly record: ChildRecord;
  readonly assessment: StoredAssessment;
  readonly inUse: readonly DeviceView[];
  /** The clinic's own families, their names too. */
  readonly rules: FitRules;
}

/** A child's record, assessment and the decisions that follow, as seen by whoever asks; the store audits the read. */
export async function loadChild(childId: string, deps: ServiceDeps, actor: Actor): Promise<ChildView> {
  const today = deps.clock.today();
  const [{ whole, seen }, assessing, stored, jobs, { value: clinic }] = await Promise.all([
    deps.store.children.recordToDecide(childId, actor),
    deps.assessor.current(),
    deps.store.forecasts.assessment(childId),
    deps.store.workshopJobs.all(),
    deps.store.settings.get(),
  ]);
  const record = recordUntil(seen, today);
  const assessment = await assessedAsOf(deps.store, assessing, whole, stored);
  const { rules } = assessing.context;
  const options = { today, rules, settings: recallSettingsOf(clinic) };
  const decisions = new Map(
    withDecisionSentences(childDecisions(recordUntil(whole, today), assessment, jobs, options), rules).map(
      (d) => [d.deviceId, d],
    ),
  );
  const turnaroundOf = turnaroundsOf(jobs, today, rules);
  const inUse = record.devices.toSorted(inReadingOrder).flatMap((device): DeviceView[] => {
    const forecast = assessment.forecasts.find((f) => f.deviceId === device.id);
    if (!forecast || device.status === 'retired' || forecast.outcome === 'not-in-use') return [];
    return [
      {
        device,
        forecast,
        decision: decisions.get(device.id) ?? null,
        turnaround: turnaroundOf(device.family),
        hipAngle: lastHipAngle(device, deviceHistory(device, record.events).since),
      },
    ];
  });
  return { record, assessment, inUse, rules };
}

export const loadChildFor = (
  request: FastifyRequest,
  childId: string,
  deps: ServiceDeps,
): Promise<ChildView> => loadChild(childId, deps, actorOf(request));

/** Posteriors of the records last looked at: page, charts and what-if of one child fit it once. */
const posteriors = lastUsed<ChildPosterior | null>(64);

/** What charts, pages and what-ifs of the child are made of. */
export function posteriorOf(record: ChildRecord, deps: ServiceDeps): ChildPosterior | null {
  const today = deps.clock.today();
  const model = loadGrowthModel();
  const input = growthInput(recordUntil(record, today), model);
  const key = createHash('sha256')
    .update(JSON.stringify([model.name, model.version, today, input]))
    .digest('base64');
  return posteriors(key, () => growthToDraw(input, model, today));
}
