import type { EndReason } from '../../records/device.js';

/**
 * What people write over the columns and into the cells of their own lists, in words.csv: a row a meaning, a column a
 * language. A phrase list is one text with | between the phrases; case, accents and punctuation do not matter.
 */

/** What a column of a clinic's sheet can hold besides sizes. */
export const fieldIds = [
  'child.id',
  'child.name',
  'child.first_name',
  'child.last_name',
  'child.birth_date',
  'child.sex',
  'child.gestation_weeks',
  'child.conditions',
  'child.affected_side',
  'child.insensate_skin',
  'child.latex_alert',
  'child.palliative',
  'child.walks',
  'child.sibling_group',
  'child.transport_days',
  'child.prefers_holidays',
  'child.clinician',
  'child.contact',
  'child.language',
  'child.status',
  'visit.date',
  'visit.age',
  'visit.method',
  'visit.observer',
  'long.measure',
  'long.value',
  'long.unit',
  'long.id',
  'long.technical_error',
  'long.entered',
  'side',
  'device.id',
  'device.family',
  'device.cast_date',
  'device.fitted_date',
  'device.end_date',
  'device.end_reason',
  'device.status',
  'device.footplate',
  'device.replaces',
  'device.verdict',
  'shoe.size',
  'marker.menarche',
  'marker.pelvis_stage',
  'marker.hand_stage',
  'marker.bone_age',
] as const;
export type FieldId = (typeof fieldIds)[number];

export const languages = ['en', 'de', 'fr', 'es', 'nl', 'it'] as const;
export type Language = (typeof languages)[number];

export type PartId =
  | 'foot'
  | 'heel'
  | 'ankle'
  | 'calf'
  | 'knee'
  | 'fibula'
  | 'thigh'
  | 'hip'
  | 'trochanter'
  | 'asis'
  | 'leg'
  | 'trunk'
  | 'pelvis'
  | 'waist'
  | 'chest'
  | 'axilla'
  | 'head';
export type DimensionId = 'length' | 'breadth' | 'height' | 'girth' | 'diagonal';

export interface Vocabulary {
  readonly fields: Partial<Record<FieldId, string>>;
  /** Columns that are understood and kept as they are: running numbers, today's age, the next review. */
  readonly kept: string;
  /** Columns of remarks on the visit, and of the skin at it: kept, and told to the devices worn that day. */
  readonly remarks: string;
  readonly skin: string;
  /** In a list of devices: shoes, which are none. */
  readonly footwear: string;
  readonly parts: Partial<Record<PartId, string>>;
  readonly dimensions: Partial<Record<DimensionId, string>>;
  /** Whole words for a measure, by its id. */
  readonly measures: Readonly<Record<string, string>>;
  readonly left: string;
  readonly right: string;
  readonly both: string;
  readonly person: string;
  readonly name: string;
  readonly number: string;
  readonly date: string;
  readonly age: string;
  /** Units of an age in a heading: 'Age (months)'. */
  readonly ageMonths: string;
  readonly ageWeeks: string;
  readonly today: string;
  /** Beside a measure: of another day than the row's, or not measured at all. */
  readonly otherTime: string;
  /** Beside a day or a device: not yet, so it tells nothing of what is. */
  readonly yetToCome: string;
  /** Words that say nothing: of, the, current. */
  readonly noise: string;
  readonly female: string;
  readonly male: string;
  readonly yes: string;
  readonly no: string;
  /** Not measured, did not attend, unknown. */
  readonly nothing: string;
  /** The same as the cell above. */
  readonly ditto: string;
  /** Where a cast would stand: made to none. */
  readonly stock: string;
  /** The device of before goes on. */
  readonly unchanged: string;
  /** About, in shoes: a value to be kept with its doubt. */
  readonly doubt: string;
  readonly months: string;
  /** First words of a line that adds up the lines above it. */
  readonly totals: string;
  readonly verdicts: Readonly<Record<'loose' | 'good' | 'tight' | 'outgrown', string>>;
  /** Why a device ended. */
  readonly endReasons: Readonly<Record<EndReason, string>>;
  readonly deviceStates: Readonly<Record<'ordered' | 'worn' | 'retired', string>>;
  readonly childStates: Readonly<Record<'active' | 'moved-away' | 'discharged' | 'died', string>>;
}
