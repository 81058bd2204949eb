import type { EndReason } from '../../records/device.js';
import type { DimensionId, PartId } from './by-part.js';

/**
 * What people write over the columns and into the cells of their own lists, in words.csv: a row a meaning, a column a
 * language. A phrase list is one text with | between the phrases; case, accents and punctuation do not matter.
 */

/** What a column of a clinic's sheet can hold besides sizes, in words. */
export const fieldLabels = {
  'child.id': "the child's number",
  'child.name': "the child's name",
  'child.first_name': 'the first name',
  'child.last_name': 'the surname',
  'child.birth_date': 'the date of birth',
  'child.sex': 'the sex',
  'child.gestation_weeks': 'weeks of gestation at birth',
  'child.conditions': 'the diagnosis',
  'child.affected_side': 'the affected side',
  'child.insensate_skin': 'skin that cannot warn',
  'child.latex_alert': 'latex alert',
  'child.palliative': 'palliative care',
  'child.walks': 'whether the child walks',
  'child.sibling_group': 'siblings to call together',
  'child.transport_days': 'days with transport',
  'child.prefers_holidays': 'prefers school holidays',
  'child.clinician': 'who sees the child',
  'child.contact': 'the contact',
  'child.language': 'the language of the family',
  'child.status': 'whether the child is in care',
  'visit.date': 'the date of the visit',
  'visit.age': 'the age at the visit',
  'visit.method': 'how it was measured',
  'visit.observer': 'who measured',
  'long.measure': 'what was measured',
  'long.value': 'the size',
  'long.unit': 'the unit of the size',
  'long.id': "the reading's number",
  'long.technical_error': 'the technical error of the reading',
  'long.entered': 'what was first typed',
  side: 'the side',
  'device.id': "the device's number",
  'device.family': 'the device',
  'device.cast_date': 'the date of the cast',
  'device.fitted_date': 'the date of fitting',
  'device.end_date': 'the day the device ended',
  'device.end_reason': 'why the device ended',
  'device.status': 'the state of the device',
  'device.footplate': 'the footplate',
  'device.replaces': 'the device it takes the place of',
  'device.verdict': 'how the device fits',
  'shoe.size': 'the shoe size',
  'marker.menarche': 'the menarche',
  'marker.pelvis_stage': 'the pelvis stage (Risser)',
  'marker.hand_stage': 'the hand stage (Sanders)',
  'marker.bone_age': 'the bone age',
} as const;
export type FieldId = keyof typeof fieldLabels;
export const fieldIds = Object.keys(fieldLabels) as FieldId[];

export const languages = ['en', 'de', 'fr', 'es', 'nl', 'it'] as const;
export type Language = (typeof languages)[number];

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
  /** Beside a measure: of the first visit, where that has a day of its own. */
  readonly firstVisit: string;
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
