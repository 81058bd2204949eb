import { createHash } from 'node:crypto';
import type { ChildRecord } from '../devices/caseload.js';
import type { FitRules } from '../devices/fit-rule.js';
import { loadRules } from '../devices/load-rules.js';
import { DoorpostError } from '../errors.js';
import { type AssessmentContext, assessChild, type ChildAssessment } from '../forecast/assess-child.js';
import type { GrowthModel } from '../growth/growth-model.js';
import { loadGrowthModel } from '../growth/model.js';
import type { Store, StoredAssessment } from '../store/contract.js';
import type { Clock } from './dependencies.js';

/** One seed for every forecast of the service, so that a date never moves without a reason. */
const SEED = 1;
const DRAWS = 1000;

export interface Assessor {
  /** Stored when nothing it was computed from has changed, else computed now and stored. */
  assess(childId: string): Promise<StoredAssessment>;
  /** The same for a record at hand; does not store. `stored` is handed back when it still holds. */
  of(record: ChildRecord, stored: StoredAssessment | null): StoredAssessment;
  /** With the growth posterior, which charts need and which is not stored. */
  live(record: ChildRecord): ChildAssessment;
  readonly context: () => AssessmentContext;
}

/** Computes and keeps assessments; the model and the fit rules are read once, when first needed. */
export function assessor(store: Store, clock: Clock): Assessor {
  let loaded: { model: GrowthModel; rules: FitRules } | null = null;
  const context = (): AssessmentContext => {
    loaded ??= { model: loadGrowthModel(), rules: loadRules() };
    return { ...loaded, today: clock.today(), seed: SEED, draws: DRAWS };
  };
  const of = (record: ChildRecord, stored: StoredAssessment | null): StoredAssessment => {
    const using = context();
    const inputsHash = hashOf(record);
    if (
      stored &&
      stored.inputsHash === inputsHash &&
      stored.today === using.today &&
      stored.modelName === using.model.name &&
      stored.modelVersion === using.model.version
    )
      return stored;
    const { forecasts, flags, suggestions } = assessChild(record, using);
    return {
      childId: record.child.id,
      today: using.today,
      forecasts,
      flags,
      suggestions,
      inputsHash,
      modelName: using.model.name,
      modelVersion: using.model.version,
      seed: SEED,
      computedAt: clock.now().toISOString(),
    };
  };
  return {
    context,
    of,
    live: (record) => assessChild(record, context()),
    async assess(childId) {
      const [record] = await store.caseload.records([childId]);
      if (!record) throw new DoorpostError('not-found', 'There is no such child');
      const stored = await store.forecasts.assessment(childId);
      const now = of(record, stored);
      if (now !== stored) await store.forecasts.save(now);
      return now;
    },
  };
}

/** What a forecast was computed from: every ground row of the child as stored. */
const hashOf = (record: ChildRecord): string =>
  createHash('sha256').update(JSON.stringify(record)).digest('hex');
