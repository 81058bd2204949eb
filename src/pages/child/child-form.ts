import type { z } from 'zod';
import { growthHormoneColumns } from '../../forecast/record-until.js';
import { acceptedBy } from '../../records/check/accepted-by.js';
import {
  type ChildField,
  childFieldNames,
  childSchema,
  schedulerFields,
} from '../../records/child-fields.js';
import { type IsoDate, isIsoDate, weekdayNames } from '../../records/dates.js';
import { fieldKind, fieldLimits } from '../../records/field-limits.js';
import type { Child } from '../../records/records.js';
import type { Role } from '../../store/contract.js';
import { conditionNames } from '../../words/condition-names.js';

type Options = readonly (readonly [value: string | number, word: string])[];

const options: Partial<Record<ChildField, Options>> = {
  sex: [
    ['female', 'female'],
    ['male', 'male'],
    ['unknown', 'not known: show both'],
  ],
  affectedSide: ['none', 'left', 'right', 'both'].map((side) => [side, side]),
  status: [
    ['active', 'active: planned for and called'],
    ['moved-away', 'moved away'],
    ['discharged', 'discharged'],
    ['died', 'died'],
  ],
  transportDays: weekdayNames.map((day, i) => [i + 1, day]),
  conditions: Object.entries(conditionNames),
};
export const optionsOf = (field: ChildField): Options => options[field] ?? [];

export const fieldsOf = (role: Role): readonly ChildField[] =>
  role === 'scheduler' ? schedulerFields : childFieldNames;

/** What a form is filled with. */
export interface Read {
  /** The stored child with everything typed put over it, to fill the form again. */
  readonly typed: Child;
  /** As typed, where it cannot be a value of the record. */
  readonly raw: Readonly<Partial<Record<ChildField, string>>>;
  /** By field: what would be accepted. No value is repeated: birth dates do not belong in error texts. */
  readonly errors: Readonly<Partial<Record<ChildField, string>>>;
}

export interface ReadChild extends Read {
  readonly change: Partial<Child>;
}

/** What stands in the form next, and, where it cannot be stored, what would be accepted. */
interface Taken {
  readonly value?: unknown;
  readonly accepted?: string;
}
type Typed = Readonly<Record<string, string | readonly string[] | undefined>>;
export interface LatestBirth {
  readonly date: IsoDate;
  readonly because: string;
}

/**
 * Fields of a submitted form against the stored child, and the latest day it can have been born where that is known
 * before it is stored. A field that was not sent stays, an unticked box is no.
 */
export function readChildForm(
  body: Typed,
  stored: Child,
  fields: readonly ChildField[],
  latestBirth: LatestBirth | null,
): ReadChild {
  const typed: Record<string, unknown> = { ...stored };
  const raw: Partial<Record<ChildField, string>> = {};
  const errors: Partial<Record<ChildField, string>> = {};
  for (const field of fields) {
    const taken = take(field, body, stored, latestBirth);
    if (!taken) continue;
    if ('value' in taken) typed[field] = taken.value;
    if (taken.accepted) {
      errors[field] = taken.accepted;
      raw[field] = line(body, field) ?? '';
    }
  }
  const value = typed as Child;
  const same = (a: unknown, b: unknown) => JSON.stringify(a) === JSON.stringify(b);
  const changed = fields.filter((f) => !same(value[f], stored[f]));
  return { typed: value, raw, errors, change: Object.fromEntries(changed.map((f) => [f, value[f]])) };
}

const line = (body: Typed, field: string): string | null => {
  const given = body[field];
  return typeof given === 'string' ? given.trim() : null;
};

/** One field as it was sent; null where it was not. */
function take(field: ChildField, body: Typed, stored: Child, latestBirth: LatestBirth | null): Taken | null {
  const schema = childSchema(field);
  const kind = fieldKind(schema);
  const text = line(body, field);
  if (kind === 'tick') return { value: text === 'yes' };
  if (kind === 'several') return takeSeveral(field, [body[field] ?? []].flat());
  if (kind === 'columns') return takeHormone(body, stored);
  if (text === null) return null;
  if (kind === 'date') return takeDay(text, schema, latestBirth);
  if (kind === 'number') return takeWeeks(text, schema);
  if (field === 'language' && !isLanguage(text))
    return { accepted: 'a language code such as en, es or pt-BR' };
  const value = text === '' && schema.safeParse(null).success ? null : text;
  const { error } = schema.safeParse(value);
  if (!error) return { value };
  const tooLong = text.length > (fieldLimits(schema).maxLength ?? text.length);
  return { accepted: `${acceptedBy(error.issues[0])}${tooLong ? `; these are ${text.length}` : ''}` };
}

function takeDay(text: string, schema: z.ZodType, latestBirth: LatestBirth | null): Taken {
  const isDay = schema.safeParse(text).success;
  if (latestBirth === null) return isDay ? { value: text } : { accepted: DAY };
  if (isDay && text <= latestBirth.date) return { value: text };
  return { accepted: `${DAY}, not after ${latestBirth.because}` };
}
const DAY = 'a calendar date as YYYY-MM-DD';

function takeWeeks(text: string, schema: z.ZodType): Taken {
  const value = text === '' ? null : Number(text);
  const { min, max } = fieldLimits(schema);
  return schema.safeParse(value).success && Number.isInteger(value ?? 0)
    ? { value }
    : { accepted: `whole weeks from ${min} to ${max}, or nothing` };
}

function takeSeveral(field: ChildField, given: readonly string[]): Taken {
  const known = optionsOf(field);
  const value = known.map(([v]) => v).filter((v) => given.includes(String(v)));
  if (value.length === new Set(given).size) return { value };
  const [first, last] = [known[0], known[known.length - 1]];
  return typeof first[0] === 'number'
    ? { accepted: `${first.join(' for ')} to ${last.join(' for ')}` }
    : { accepted: known.map(([v]) => v).join(', ') };
}

/** The dates of growth hormone as typed; an empty one is taken out, one that was not sent stays. */
function takeHormone(body: Typed, { birthDate, extra }: Child): Taken | null {
  const columns: readonly string[] = Object.values(growthHormoneColumns);
  const sent = columns.flatMap((column) => {
    const text = line(body, column);
    return text === null ? [] : [[column, text] as const];
  });
  if (sent.length === 0) return null;
  const all: Child['extra'] = { ...extra, ...Object.fromEntries(sent) };
  const [start, end] = columns.map((column) => all[column] ?? '');
  const isAccepted =
    (start === '' || (isIsoDate(start) && start >= birthDate)) &&
    (end === '' || (isIsoDate(end) && start !== '' && end >= start));
  const kept = Object.entries(all).filter(([column, text]) => text !== '' || !columns.includes(column));
  return { value: Object.fromEntries(kept), accepted: isAccepted ? undefined : HORMONE_ACCEPTED };
}

const HORMONE_ACCEPTED =
  'calendar dates as YYYY-MM-DD: a start not before birth, an end not before the start, or nothing';

function isLanguage(text: string): boolean {
  try {
    return Intl.getCanonicalLocales(text).length === 1;
  } catch {
    return false;
  }
}

export function storedText(field: ChildField, child: Child): string {
  const value = child[field];
  if (field === 'extra')
    return Object.values(growthHormoneColumns)
      .map((column) => child.extra[column] ?? 'empty')
      .join(' to ');
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  const words = [value].flat().map((one) => optionsOf(field).find(([v]) => v === one)?.[1] ?? one);
  if (Array.isArray(value)) return words.join('; ') || (field === 'transportDays' ? 'any day' : 'none');
  return value === null || value === '' ? 'empty' : String(words[0]);
}
