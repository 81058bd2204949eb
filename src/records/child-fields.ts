import { type Child, childRecord } from './records.js';

/** A child's own fields that a person changes; the clinic's number stays. */
export type ChildField = Exclude<keyof Child, 'id'>;

/** Where it stands in a form; whoever plans changes how a family is reached, the rest is a clinician's. */
export type ChildPart = 'reach' | 'alerts' | 'child' | 'care';

interface About {
  readonly part: ChildPart;
  readonly label: string;
  readonly hint?: string;
  readonly wide?: true;
}

/** Every field that a person enters, in the order of the form. What a value may be stands in the record's schema. */
export const childFields: Readonly<Record<ChildField, About>> = {
  contact: { part: 'reach', label: 'Whom to ring, and how', hint: 'as the family wants it', wide: true },
  language: { part: 'reach', label: 'Family’s language', hint: 'en, es, pt-BR' },
  siblingGroup: {
    part: 'reach',
    label: 'Called together with',
    hint: 'same words, same visit',
    wide: true,
  },
  clinician: { part: 'reach', label: 'Seen by', hint: 'a name of Capacity; empty: anybody' },
  transportDays: { part: 'reach', label: 'Days with transport', hint: 'none ticked: any day' },
  prefersHolidays: { part: 'reach', label: 'wants visits in school holidays' },
  insensateSkin: { part: 'alerts', label: 'insensate skin: pain is no warning' },
  latexAlert: { part: 'alerts', label: 'latex alert' },
  palliative: { part: 'alerts', label: 'palliative care: comfort before dates' },
  name: { part: 'child', label: 'Name', wide: true },
  birthDate: { part: 'child', label: 'Born on' },
  sex: { part: 'child', label: 'Sex for the growth reference' },
  gestationWeeks: { part: 'child', label: 'Born at week', hint: 'if early, 22 to 44' },
  affectedSide: { part: 'child', label: 'Affected side' },
  walks: { part: 'child', label: 'walks' },
  conditions: { part: 'child', label: 'Conditions' },
  status: { part: 'care', label: 'Status' },
  extra: {
    part: 'care',
    label: 'Growth hormone',
    hint: 'growth may run faster between these dates; empty: none',
  },
};

export const childFieldNames = Object.keys(childFields) as ChildField[];
export const fieldsIn = (part: ChildPart): ChildField[] =>
  childFieldNames.filter((field) => childFields[field].part === part);

/** What a scheduler may change of a child: how to reach a family and when it can come. */
export const schedulerFields = fieldsIn('reach');

/** The schema of one field. */
export const childSchema = (field: ChildField) => childRecord.shape[field];
