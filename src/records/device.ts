/** Device records and fit rules: plain data that a clinician can read. Knows nothing of growth or chance. */
import { z } from 'zod';
import { measureId, side } from './measure.js';
import { extra, isoDateText, note, recordId } from './records.js';

export const familyIds = [
  'foot-orthosis',
  'supramalleolar-orthosis',
  'solid-afo',
  'afo-with-straps',
  'articulated-afo',
  'ground-reaction-afo',
  'kafo',
  'hkafo',
  'hip-abduction-orthosis',
  'spinal-orthosis',
  'cranial-orthosis',
  'knee-orthosis',
  'wrist-hand-orthosis',
  'boots-and-bar',
  'shoe-raise',
] as const;
/** Built-in families; a clinic's own rule may add another id. */
export type FamilyId = (typeof familyIds)[number] | (string & {});

/** Ways of making room in a device. */
export const adjustmentKinds = [
  'side-bar',
  'strap',
  'flare',
  'relief',
  'trim',
  'pad',
  'relocated-joint',
] as const;
export type AdjustmentKind = (typeof adjustmentKinds)[number];

/** Why a device ended. */
export const endReasons = [
  'outgrown',
  'worn-out',
  'broken',
  'lost',
  'function-changed',
  'surgery',
  'tone-or-contracture',
  'skin',
  'transferred',
  'no-longer-wanted',
] as const;
export type EndReason = (typeof endReasons)[number];

/** What is longer is no part of a body; what fits a device stands in its check. */
const MOST_MM = 1_000_000;

/** Hip abduction from the midline, degrees. */
const hipAngle = z.number().min(0).max(90).nullish();

export const deviceRecord = z.object({
  id: recordId,
  childId: recordId,
  family: z.string().min(1).max(60),
  /** 'none' for a device of the trunk or head; 'both' for a bilateral frame. */
  side: z.enum(['left', 'right', 'both', 'none']),
  castDate: isoDateText,
  fittedDate: isoDateText.nullable().default(null),
  status: z.enum(['ordered', 'worn', 'retired']).default('worn'),
  /** Id of the device it was cast to take the place of; null where nobody said. */
  replaces: recordId.nullable().default(null),
  /** Does the plate end behind the toes (no toe overhang to judge)? */
  footplate: z.enum(['full', 'behind-toes', 'none']).default('full'),
  /** Overrides of the family's allowance (growth since cast at which it is outgrown), mm by dimension. */
  allowancesMm: z
    .record(measureId, z.number().min(0).max(MOST_MM))
    .or(z.partialRecord(measureId, z.number().min(0).max(MOST_MM)))
    .default({}),
  /** Largest size the device takes, mm by dimension, where the maker states it (replaces size at cast + allowance). */
  limitsMm: z.partialRecord(measureId, z.number().positive().max(MOST_MM)).default({}),
  /** Extension left in the side bars when delivered, mm by dimension (knee_height, hip_height). */
  extensionRangeMm: z.partialRecord(measureId, z.number().min(0).max(MOST_MM)).default({}),
  /** Between which angles it was set to hold each hip; null where nobody said. */
  hipAngleFrom: hipAngle,
  hipAngleTo: hipAngle,
  extra,
});
export type Device = z.infer<typeof deviceRecord>;

/** A device that has not ended is worn once it was fitted. */
export const stateByFitting = (fittedDate: string | null): 'ordered' | 'worn' =>
  fittedDate === null ? 'ordered' : 'worn';

export const eventKinds = [
  'cast',
  'delivered',
  'adjusted',
  're-cast',
  'broken',
  'lost',
  'retired',
  'verdict',
] as const;

/** How a device fits, as a person judged it, from too large to too small. */
export const verdicts = ['loose', 'good', 'tight', 'outgrown'] as const;
export type Verdict = (typeof verdicts)[number];

export const deviceEventRecord = z.object({
  id: recordId,
  deviceId: recordId,
  date: isoDateText,
  kind: z.enum(eventKinds),
  /** adjusted: which dimension gained room, and how much. verdict: the dimension judged, or null for the device. */
  measure: measureId.nullable().default(null),
  side: side.nullable().default(null),
  changeMm: z.number().min(-MOST_MM).max(MOST_MM).nullable().default(null),
  adjustment: z
    .enum([...adjustmentKinds, 'other'])
    .nullable()
    .default(null),
  verdict: z.enum(verdicts).nullable().default(null),
  /** verdict: the angle each hip was found at. */
  hipAngleLeft: hipAngle,
  hipAngleRight: hipAngle,
  /** retired: why. */
  endReason: z.enum(endReasons).nullable().default(null),
  note,
});
export type DeviceEvent = z.infer<typeof deviceEventRecord>;

/** Workshop stages in order. */
export const stageIds = ['cast', 'fill', 'rectify', 'mould', 'assemble', 'finish', 'fit'] as const;
export type StageId = (typeof stageIds)[number];

export const workshopJobRecord = z.object({
  id: recordId,
  deviceId: recordId,
  family: z.string().min(1).max(60),
  /** Date each stage was done; 'fit' closes the job. */
  stages: z.partialRecord(z.enum(stageIds), isoDateText),
  status: z.enum(['in-progress', 'fitted', 'cancelled']).default('in-progress'),
});
export type WorkshopJob = z.infer<typeof workshopJobRecord>;
