import { z } from 'zod';
import { fieldKind, fieldOptions } from './field-limits.js';

/** What is said of a record's field at every door; what its value may be stands in the record's schema. */
export interface AboutField {
  /** How a form, a history and the interface's document call it; left out where no person enters it by itself. */
  readonly label?: string;
  readonly hint?: string;
  /** Other headings of its column in a file; the column itself is `columnName`. */
  readonly aliases?: readonly string[];
  /** What a cell of a file accepts, where the schema does not say all of it. */
  readonly accepted?: string;
  /** What an empty cell means, where that is more than the schema's default. */
  readonly empty?: string;
  /** What an empty cell is read as, where the schema has no default. */
  readonly otherwise?: string;
  /** A file may lack the column although the schema must have the value. */
  readonly mayLack?: true;
}

const ID = '1 to 80 characters, unique in its table';
export const ownId = (...aliases: string[]): AboutField => ({ aliases, accepted: ID });
/** An id that is made of the row's content where none is given. */
export const madeId = (alias: string): AboutField => ({
  aliases: [alias],
  accepted: `${ID}; made from the row when empty`,
  mayLack: true,
});
export const ofChild: AboutField = {
  aliases: ['child', 'patient_id', 'patient'],
  accepted: 'an id in children',
};
export const ofDevice: AboutField = { aliases: ['device'], accepted: 'an id in devices' };

/** 'castDate' -> 'cast_date'. */
export const columnName = (field: string): string =>
  field.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);

const DATE =
  'a date as 2024-03-17 or 17.03.2024, 17/03/2024 where only one reading is possible, an Excel date';
const YES_NO = 'yes or no (true, false, 1, 0)';

/** 'active, moved-away, discharged or died'. */
const choice = (words: readonly string[]): string =>
  words.length > 1 ? `${words.slice(0, -1).join(', ')} or ${words.at(-1)}` : words.join('');

const byKind = {
  tick: () => YES_NO,
  choice: (field: z.ZodType) => choice(fieldOptions(field)),
  date: () => DATE,
  several: () => 'words separated by |',
  number: () => 'a number',
  columns: () => 'text',
  text: () => 'text',
} as const;

/** What a cell of the field's column accepts, as `doorpost columns` and a refusal quote it. */
export function acceptedInFile(field: z.ZodType, { accepted, empty }: AboutField): string {
  const own = accepted ?? byKind[fieldKind(field)](field);
  return empty === undefined ? own : `${own}; ${empty}`;
}

/** Must a file have the column? Where the schema has no default, unless the list says otherwise. */
export const isNeeded = (field: z.ZodType, { mayLack }: AboutField): boolean =>
  !mayLack && !(field instanceof z.ZodDefault || field instanceof z.ZodOptional);
