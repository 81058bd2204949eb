import { z } from 'zod';
import { isIsoDate } from './dates.js';
import { measureId, side } from './measure.js';

/** Days that a clinic can mean: a span of days is never longer than these years. */
export const isoDateText = z
  .string()
  .max(10)
  .refine((text) => isIsoDate(text) && text >= '1900-01-01' && text < '2200-01-01', {
    message: 'a calendar date as YYYY-MM-DD between 1900 and 2199 is accepted',
  })
  .meta({ format: 'date' });

/** Of a child, a reading, a device: whatever a clinic's own numbers look like. */
export const recordId = z.string().min(1).max(80);

/** 'unknown': both references are shown and neither is chosen for the reader. */
export const sex = z.enum(['male', 'female', 'unknown']);
export type Sex = z.infer<typeof sex>;

/** Conditions that move a growth prior or a caution. The child's own data can overrule every prior. */
export const conditionIds = [
  'none',
  'cerebral-palsy',
  'hemiplegia',
  'myelomeningocele-high',
  'myelomeningocele-low',
  'muscular-dystrophy',
  'spinal-muscular-atrophy',
  'arthrogryposis',
  'clubfoot',
  'down-syndrome',
  'idiopathic-scoliosis',
  'neuromuscular-scoliosis',
  'positional-head-asymmetry',
  'craniosynostosis-operated',
  'hypotonia',
  'flexible-flat-foot',
  'hip-dysplasia',
  'leg-length-difference',
  'other',
] as const;
export const conditionId = z.enum(conditionIds);
export type ConditionId = z.infer<typeof conditionId>;

export const spinaBifida = [
  'myelomeningocele-high',
  'myelomeningocele-low',
] as const satisfies readonly ConditionId[];
/** Very high risk of latex allergy, skin that may not feel, early puberty. */
export const hasSpinaBifida = ({ conditions }: { readonly conditions: readonly ConditionId[] }): boolean =>
  conditions.some((c) => c === spinaBifida[0] || c === spinaBifida[1]);

/** By the record's own alert, or because nobody with spina bifida is to meet latex. */
export const avoidsLatex = (child: {
  readonly latexAlert: boolean;
  readonly conditions: readonly ConditionId[];
}): boolean => child.latexAlert || hasSpinaBifida(child);

/** Characters of a note on a device or on the skin under it. */
export const LONGEST_NOTE = 1000;
export const note = z.string().max(LONGEST_NOTE).default('');

/** Characters of why something was corrected, withdrawn or erased. */
export const LONGEST_REASON = 400;
export const reason = z.string().trim().min(1).max(LONGEST_REASON);

/** Free columns a file carried that doorpost does not read; kept and written back. */
const MOST_COLUMNS = 200;
export const extra = z
  .record(z.string().max(200), z.string().max(10_000))
  .refine((columns) => Object.keys(columns).length <= MOST_COLUMNS, {
    message: `at most ${MOST_COLUMNS} are accepted`,
  })
  .meta({ maxProperties: MOST_COLUMNS })
  .default({});

export const childRecord = z.object({
  id: recordId,
  /** Shown on pages; never logged, never in a file name or an error text. Empty where the clinic imports numbers only. */
  name: z.string().max(200).default(''),
  birthDate: isoDateText,
  sex,
  /** Completed weeks at birth, null when unknown. */
  gestationWeeks: z.number().min(22).max(44).nullable().default(null),
  conditions: z.array(conditionId).max(40).default([]),
  affectedSide: z.enum(['left', 'right', 'both', 'none']).default('none'),
  insensateSkin: z.boolean().default(false),
  latexAlert: z.boolean().default(false),
  palliative: z.boolean().default(false),
  walks: z.boolean().default(true),
  /** Children with the same text are called together. */
  siblingGroup: z.string().max(80).nullable().default(null),
  /** Weekdays transport is available, 1 Monday .. 7 Sunday; empty for any day. */
  transportDays: z.array(z.number().int().min(1).max(7)).max(7).default([]),
  prefersHolidays: z.boolean().default(false),
  /** The clinician who sees this child, by the name the clinic's capacity has; empty for any. */
  clinician: z.string().max(80).default(''),
  /** Who to ring and how, as free text; shown to scheduler and clinician only. */
  contact: z.string().max(400).default(''),
  language: z.string().max(35).default('en'),
  /** 'active' children are planned for; the others stay in the record. */
  status: z.enum(['active', 'moved-away', 'discharged', 'died']).default('active'),
  extra,
});
export type Child = z.infer<typeof childRecord>;

export const measurementRecord = z.object({
  id: recordId,
  childId: recordId,
  measure: measureId,
  side,
  /** mm, or kg for weight. */
  value: z.number().positive(),
  date: isoDateText,
  /** How it was taken: 'gauge', 'tape', 'scan', 'x-ray', 'parent' (a family's own reading), free text. */
  method: z.string().max(80).default(''),
  observer: z.string().max(80).default(''),
  /** Technical error of this reading in the measure's unit; null for the measure's default. */
  technicalError: z.number().positive().nullable().default(null),
  /** What was typed, with its unit, before conversion: '17,5 cm'. */
  entered: z.string().max(80).default(''),
  extra,
});
export type Measurement = z.infer<typeof measurementRecord>;

/** What says how mature a child is, as evidence on tempo. */
export const markerRecord = z.object({
  id: recordId,
  childId: recordId,
  date: isoDateText,
  kind: z.enum([
    'bone-age', // value: years
    'menarche', // date is the event's date; value ignored
    'hand-stage', // value: 1..8 simplified skeletal maturity stage of the hand
    'pelvis-stage', // value: 0..5 iliac apophysis stage
    'pre-pubertal', // date last known pre-pubertal; value ignored
    'maturity-offset', // value: years from peak height velocity, with `sdYears`
  ]),
  value: z.number().min(-100).max(100).default(0),
  sdYears: z.number().positive().max(100).nullable().default(null),
});
export type MaturityMarker = z.infer<typeof markerRecord>;
