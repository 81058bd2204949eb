import { growthHormoneColumns } from '../../forecast/record-until.js';
import { type IsoDate, isIsoDate, weekdayName } from '../../records/dates.js';
import { fieldLimits } from '../../records/field-limits.js';
import { type Child, childRecord, conditionIds } from '../../records/records.js';
import { schedulerFields } from '../../service/scheduler-fields.js';
import type { Role } from '../../store/contract.js';
import { conditionNames } from '../../words/condition-names.js';

/** Fields that are one line of text: to add one, add a line here (and to schedulerFields where a scheduler may change it). */
export const textFields = [
  { field: 'contact', label: 'Whom to ring, and how', hint: 'as the family wants it' },
  { field: 'language', label: 'Family’s language', hint: 'en, es, pt-BR' },
  {
    field: 'siblingGroup',
    label: 'Called together with',
    hint: 'same words, same visit',
  },
  { field: 'clinician', label: 'Seen by', hint: 'a name of Capacity; empty: anybody' },
  { field: 'name', label: 'Name', hint: '' },
] as const satisfies readonly { field: keyof Child; label: string; hint: string }[];

export const choices = {
  sex: { female: 'female', male: 'male', unknown: 'not known: show both' },
  affectedSide: { none: 'none', left: 'left', right: 'right', both: 'both' },
  status: {
    active: 'active: planned for and called',
    'moved-away': 'moved away',
    discharged: 'discharged',
    died: 'died',
  },
} as const;

export const ticks = {
  prefersHolidays: 'wants visits in school holidays',
  insensateSkin: 'insensate skin: pain is no warning',
  latexAlert: 'latex alert',
  palliative: 'palliative care: comfort before dates',
  walks: 'walks',
} as const;

const weeks = fieldLimits(childRecord.shape.gestationWeeks);

/** A child's own fields a form can change; the number stays. Of `extra` only growth hormone's dates are typed by hand. */
export type ChildField = Exclude<keyof Child, 'id'>;
/** In the order of the form: reaching the family comes first. */
const childFields: readonly ChildField[] = [
  ...schedulerFields,
  ...(Object.keys(childRecord.shape) as ChildField[]).filter((f) => !['id', ...schedulerFields].includes(f)),
];

export const labelOf = (field: ChildField): string =>
  textFields.find((t) => t.field === field)?.label ??
  (field in ticks ? ticks[field as keyof typeof ticks] : labels[field]) ??
  field;

const labels: Partial<Record<ChildField, string>> = {
  birthDate: 'Born on',
  sex: 'Sex for the growth reference',
  gestationWeeks: 'Born at week',
  conditions: 'Conditions',
  affectedSide: 'Affected side',
  transportDays: 'Days with transport',
  status: 'Status',
  extra: 'Growth hormone',
};

export const fieldsOf = (role: Role): readonly ChildField[] =>
  role === 'scheduler' ? schedulerFields : childFields;

export interface ReadChild {
  /** The stored child with everything typed put over it, to fill the form again. */
  readonly typed: Child;
  /** As typed, where it cannot be a value of the record. */
  readonly raw: Readonly<Partial<Record<ChildField, string>>>;
  /** By field: what would be accepted. No value is repeated: birth dates do not belong in error texts. */
  readonly errors: Readonly<Partial<Record<ChildField, string>>>;
  /** What differs from the stored child. */
  readonly change: Partial<Child>;
}

type Typed = Readonly<Record<string, string | readonly string[] | undefined>>;

/** A submitted form against the stored child; a field that was not sent stays, an unticked box is no. */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: one field after another, each kind read in its own way
export function readChildForm(
  body: Typed,
  stored: Child,
  role: Role,
  latestBirth: { readonly date: IsoDate; readonly because: string },
): ReadChild {
  const typed: Record<string, unknown> = { ...stored };
  const raw: Partial<Record<ChildField, string>> = {};
  const errors: Partial<Record<ChildField, string>> = {};
  const line = (field: string): string | null => {
    const given = body[field];
    return typeof given === 'string' ? given.trim() : null;
  };
  const many = (field: string): readonly string[] => [body[field] ?? []].flat();
  const refuse = (field: ChildField, accepted: string) => {
    errors[field] = accepted;
    raw[field] = line(field) ?? '';
  };

  for (const field of fieldsOf(role)) {
    const text = line(field);
    const limit = fieldLimits(childRecord.shape[field]).maxLength;
    if (field in ticks) typed[field] = text === 'yes';
    else if (field === 'transportDays') {
      const days = many(field).map(Number);
      if (days.every((d) => Number.isInteger(d) && d >= 1 && d <= 7))
        typed[field] = [...new Set(days)].toSorted();
      else refuse(field, '1 for Monday to 7 for Sunday');
    } else if (field === 'conditions') {
      const ids = many(field);
      const known = conditionIds.filter((c) => ids.includes(c));
      if (known.length === new Set(ids).size) typed[field] = known;
      else refuse(field, conditionIds.join(', '));
    } else if (field === 'extra') {
      const hormone = readHormone(line, stored);
      typed.extra = hormone.extra;
      if (!hormone.isAccepted) errors.extra = HORMONE_ACCEPTED;
    } else if (text === null) continue;
    else if (field in choices) {
      if (Object.hasOwn(choices[field as keyof typeof choices], text)) typed[field] = text;
      else refuse(field, Object.keys(choices[field as keyof typeof choices]).join(', '));
    } else if (field === 'birthDate') {
      if (isIsoDate(text) && text <= latestBirth.date) typed[field] = text;
      else refuse(field, `a calendar date as YYYY-MM-DD, not after ${latestBirth.because}`);
    } else if (field === 'gestationWeeks') {
      const week = text === '' ? null : Number(text);
      const { success } = childRecord.shape.gestationWeeks.safeParse(week);
      if (success && (week === null || Number.isInteger(week))) typed[field] = week;
      else refuse(field, `whole weeks from ${weeks.min} to ${weeks.max}, or nothing`);
    } else if (field === 'language' && !isLanguage(text)) {
      refuse(field, 'a language code such as en, es or pt-BR');
    } else if (limit !== undefined && text.length > limit) {
      refuse(field, `at most ${limit} characters; these are ${text.length}`);
    } else typed[field] = text === '' && childRecord.shape[field].safeParse(null).success ? null : text;
  }
  const value = typed as Child;
  const same = (a: unknown, b: unknown) => JSON.stringify(a) === JSON.stringify(b);
  const change = Object.fromEntries(
    fieldsOf(role)
      .filter((f) => !same(value[f], stored[f]))
      .map((f) => [f, value[f]]),
  );
  return { typed: value, raw, errors, change };
}

const HORMONE_ACCEPTED =
  'calendar dates as YYYY-MM-DD: a start not before birth, an end not before the start, or nothing';

/** The dates of growth hormone as typed; an empty one is taken out, one that was not sent stays. */
function readHormone(line: (field: string) => string | null, { birthDate, extra }: Child) {
  const columns = Object.values(growthHormoneColumns);
  const sent = columns.flatMap((column) => {
    const text = line(column);
    return text === null ? [] : [[column, text] as const];
  });
  const all: Child['extra'] = { ...extra, ...Object.fromEntries(sent) };
  const [start, end] = columns.map((column) => all[column] ?? '');
  const isAccepted =
    (start === '' || (isIsoDate(start) && start >= birthDate)) &&
    (end === '' || (isIsoDate(end) && start !== '' && end >= start));
  const kept = Object.entries(all).filter(
    ([column, text]) => text !== '' || !columns.some((c) => c === column),
  );
  return { extra: Object.fromEntries(kept), isAccepted: sent.length === 0 || isAccepted };
}

function isLanguage(text: string): boolean {
  try {
    return Intl.getCanonicalLocales(text).length === 1;
  } catch {
    return false;
  }
}

/** What is stored in a field, in words. */
export function storedText(field: ChildField, child: Child): string {
  const value = child[field];
  if (field === 'transportDays')
    return child.transportDays.length === 0 ? 'any day' : child.transportDays.map(weekdayName).join(', ');
  if (field === 'conditions') return child.conditions.map((c) => conditionNames[c]).join('; ') || 'none';
  if (field === 'extra')
    return Object.values(growthHormoneColumns)
      .map((column) => child.extra[column] ?? 'empty')
      .join(' to ');
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (field in choices) return (choices as Record<string, Record<string, string>>)[field][String(value)];
  return value === null || value === '' ? 'empty' : String(value);
}
