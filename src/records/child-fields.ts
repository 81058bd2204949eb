import { type AboutField, ownId } from './about-field.js';
import { type Child, childRecord, conditionIds } from './records.js';

/** A child's own fields that a person changes; the clinic's number stays. */
export type ChildField = Exclude<keyof Child, 'id'>;

/** Where it stands in a form; whoever plans changes how a family is reached, the rest is a clinician's. */
export type ChildPart = 'reach' | 'alerts' | 'child' | 'care';

interface About extends AboutField {
  readonly part: ChildPart;
  readonly label: string;
  readonly wide?: true;
}

/** Every field that a person enters, in the order of the form; the columns of a file stand in the record's order. */
export const childFields: Readonly<Record<ChildField, About>> = {
  contact: {
    part: 'reach',
    label: 'Whom to ring, and how',
    hint: 'as the family wants it',
    wide: true,
    aliases: ['phone', 'carer_contact'],
  },
  language: {
    part: 'reach',
    label: 'Family’s language',
    hint: 'en, es, pt-BR',
    accepted: 'a language code, empty for en',
  },
  siblingGroup: {
    part: 'reach',
    label: 'Called together with',
    hint: 'same words, same visit',
    wide: true,
    accepted: 'the same text for children to call together',
    aliases: ['siblings', 'family_group'],
  },
  clinician: {
    part: 'reach',
    label: 'Seen by',
    hint: 'a name of Capacity; empty: anybody',
    accepted: 'who sees the child, by the name the clinic has set; empty for any',
  },
  transportDays: {
    part: 'reach',
    label: 'Days with transport',
    hint: 'none ticked: any day',
    accepted: 'weekdays as mon|thu or 1|4; empty for any day',
  },
  prefersHolidays: { part: 'reach', label: 'wants visits in school holidays' },
  insensateSkin: { part: 'alerts', label: 'insensate skin: pain is no warning', aliases: ['insensate'] },
  latexAlert: { part: 'alerts', label: 'latex alert', aliases: ['latex', 'latex_allergy'] },
  palliative: { part: 'alerts', label: 'palliative care: comfort before dates' },
  name: { part: 'child', label: 'Name', wide: true, aliases: ['child_name', 'full_name'] },
  birthDate: { part: 'child', label: 'Born on', aliases: ['date_of_birth', 'dob', 'birthdate', 'born'] },
  sex: {
    part: 'child',
    label: 'Sex for the growth reference',
    accepted: 'female, male or unknown (f, m, girl, boy); empty for unknown',
    otherwise: 'unknown',
    aliases: ['gender'],
  },
  gestationWeeks: {
    part: 'child',
    label: 'Born at week',
    hint: 'if early, 22 to 44',
    accepted: '22 to 44 completed weeks at birth, empty when unknown',
    aliases: ['gestation'],
  },
  affectedSide: { part: 'child', label: 'Affected side' },
  walks: { part: 'child', label: 'walks', empty: 'empty for yes', aliases: ['ambulant', 'walking'] },
  conditions: {
    part: 'child',
    label: 'Conditions',
    accepted: `any of ${conditionIds.join(', ')}, separated by |`,
    aliases: ['condition', 'diagnosis'],
  },
  status: { part: 'care', label: 'Status', empty: 'empty for active' },
  extra: {
    part: 'care',
    label: 'Growth hormone',
    hint: 'growth may run faster between these dates; empty: none',
  },
};

/** The clinic's own number, which no form changes once it stands. */
export const childNumber: AboutField = ownId('child_id', 'child', 'patient_id', 'patient');

export const childFieldNames = Object.keys(childFields) as ChildField[];
export const fieldsIn = (part: ChildPart): ChildField[] =>
  childFieldNames.filter((field) => childFields[field].part === part);

/** What a scheduler may change of a child: how to reach a family and when it can come. */
export const schedulerFields = fieldsIn('reach');

/** The schema of one field. */
export const childSchema = (field: ChildField) => childRecord.shape[field];
