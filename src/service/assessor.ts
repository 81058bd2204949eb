import { createHash } from 'node:crypto';
import { DoorpostError } from '../errors.js';
import { type AssessmentContext, assessChild, type ChildAssessment } from '../forecast/assess-child.js';
import { assessUntil, onDay } from '../forecast/for-days.js';
import { lookBackDays, recordOn } from '../forecast/look-back.js';
import type { GrowthModel } from '../growth/population/growth-model.js';
import { loadGrowthModel } from '../growth/population/model.js';
import type { ChildRecord } from '../records/caseload.js';
import { addDaysIso, dayNumber, type IsoDate } from '../records/dates.js';
import { clinicRules } from '../rules/clinic-rules.js';
import type { FitRules } from '../rules/fit-rule.js';
import { lastUsed } from '../statistics/last-used.js';
import { textHash } from '../statistics/text-hash.js';
import type { MadeForecasts, Store, StoredAssessment } from '../store/contract.js';
import type { Clock } from './clock.js';
import { version } from './version.js';

/** One seed for every forecast of the service, so that a date never moves without a reason. */
const SEED = 1;
const DRAWS = 512;

export interface Assessor {
  /** Stored when nothing it was computed from has changed, else computed now and stored. */
  assess(childId: string): Promise<StoredAssessment>;
  /**
   * To assess by the fit rules as the clinic has set them by now. Taken anew for every request and every job: another
   * process, or another host, may have changed them since.
   */
  current(): Promise<Assessing>;
}

/** Assesses by one set of rules, whatever is changed meanwhile. */
export interface Assessing {
  readonly context: AssessmentContext;
  /**
   * For a record at hand; does not store. What is `stored` is told as of today where nothing it was made of has changed and
   * it speaks for today, or as it stands where it is no older than `since`.
   */
  of(record: ChildRecord, stored: StoredAssessment | null, since?: IsoDate): Assessed;
  /** With the growth posterior, which charts need and which is not stored. */
  live(record: ChildRecord): ChildAssessment;
  /** What would have been forecast on days long past, each from the record as it stood then. */
  lookBack(record: ChildRecord): MadeForecasts[];
}

interface Assessed {
  readonly now: StoredAssessment;
  /** Made just now, to be stored. */
  readonly isNew: boolean;
}

/** Computes and keeps assessments; the model is read once, the clinic's fit rules whenever their version has changed. */
export function assessor(store: Store, clock: Clock, failed?: (error: unknown) => void): Assessor {
  // Asked by many at once while they change, they are read once.
  const rulesOf = lastUsed<Promise<ClinicRules>>(1);
  const current = async (): Promise<Assessing> => {
    const rules = await rulesOf(`${await store.fitLimits.version()}`, () => readRules(store));
    return assessing(rules, loadGrowthModel(), clock, failed);
  };
  return {
    current,
    async assess(childId) {
      const [record] = await store.caseload.records([childId]);
      if (!record) throw new DoorpostError('not-found', 'There is no such child');
      return assessedAsOf(store, await current(), record, await store.forecasts.assessment(childId));
    },
  };
}

/**
 * Yesterday's assessment is as good until the night's run has reached the child: no date of a forecast hangs on today, so
 * that a page need not wait for the sums.
 */
export const stillGoodSince = ({ context }: Assessing): IsoDate => addDaysIso(context.today, -1);

/** What is stored of a record where it still holds, else assessed now and stored. */
export async function assessedAsOf(
  store: Store,
  assessing: Assessing,
  record: ChildRecord,
  stored: StoredAssessment | null,
): Promise<StoredAssessment> {
  const { now, isNew } = assessing.of(record, stored, stillGoodSince(assessing));
  if (isNew) await store.forecasts.save(now);
  return now;
}

interface ClinicRules {
  readonly rules: FitRules;
  /** What each family's rule says, in short. */
  readonly digests: ReadonlyMap<string, string>;
}

async function readRules(store: Store): Promise<ClinicRules> {
  const { value } = await store.fitLimits.current();
  const rules = clinicRules(value);
  const digests = new Map([...rules].map(([family, rule]) => [family, digest(JSON.stringify(rule))]));
  return { rules, digests };
}

function assessing(
  { rules, digests }: ClinicRules,
  model: GrowthModel,
  clock: Clock,
  failed?: (error: unknown) => void,
): Assessing {
  const context: AssessmentContext = { model, rules, today: clock.today(), seed: SEED, draws: DRAWS, failed };
  return {
    context,
    live: (record) => assessChild(record, context),
    lookBack: (record) =>
      lookBackDays(record, context.today).map((today) => {
        const then = recordOn(record, today);
        const { forecasts } = assessChild(then, { ...context, today });
        return {
          childId: record.child.id,
          today,
          forecasts: forecasts.filter((f) => f.p50 !== null),
          inputsHash: hashOf(then, digests),
          modelVersion: model.version,
        };
      }),
    of(record, stored, since = context.today) {
      const inputsHash = hashOf(record, digests);
      if (
        stored?.inputsHash === inputsHash &&
        stored.modelName === model.name &&
        stored.modelVersion === model.version &&
        stored.today <= context.today
      ) {
        const told = stored.program === version ? onDay(stored, record, context, context.today) : null;
        const now = told ?? (stored.today >= since ? stored : null);
        if (now) return { now, isNew: false };
      }
      const last = lastDayFrom(context.today, record.child.id);
      const { growth: _, ...made } = assessUntil(record, context, last);
      const computedAt = clock.now().toISOString();
      const { name: modelName, version: modelVersion } = model;
      const { today } = context;
      return {
        now: {
          ...made,
          today,
          inputsHash,
          modelName,
          modelVersion,
          seed: SEED,
          computedAt,
          program: version,
        },
        isNew: true,
      };
    },
  };
}

/** A child without news is assessed once in so many nights. */
const NIGHTS = 7;

/** The last day an assessment is to speak for: each night another seventh of the children has its turn. */
function lastDayFrom(today: IsoDate, childId: string): IsoDate {
  const turn = dayNumber(today) + 1 + (textHash(childId) >>> 0);
  return addDaysIso(today, NIGHTS - 1 - (turn % NIGHTS));
}

/** What a forecast was computed from: every ground row of the child as stored, and the rules of its devices' families. */
function hashOf(record: ChildRecord, digests: ReadonlyMap<string, string>): string {
  const families = [...new Set(record.devices.map((d) => d.family))].toSorted();
  return digest(JSON.stringify([record, families.map((family) => digests.get(family) ?? null)]));
}

const digest = (text: string): string => createHash('sha256').update(text).digest('hex');
