import type { z } from 'zod';
import { readNumber } from '../../exchange/csv/read-number.js';
import { acceptedBy } from '../../records/check/accepted-by.js';
import { fieldKind } from '../../records/field-limits.js';
import { cannotBe } from './cannot-be.js';
import type { Fields } from './route-types.js';

/** A form's fields as the schema of the interface has them, refused by that schema and in its words. */
export function typedRecord<S extends z.ZodObject>(schema: S, body: Fields = {}): z.output<S> {
  const typed: Record<string, unknown> = {};
  for (const [name, field] of Object.entries<z.core.$ZodType>(schema.shape)) {
    const text = body[name]?.trim();
    if (text !== undefined) typed[name] = fieldValue(text, field as z.ZodType);
  }
  const read = schema.safeParse(typed);
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  return cannotBe(issue.path.join('.'), body[String(issue.path[0])], acceptedBy(issue));
}

/** A number may have its unit behind it; an empty field is nothing where there may be nothing. */
function fieldValue(text: string, field: z.ZodType): unknown {
  const takes = (nothing: unknown) => field.safeParse(nothing).success;
  if (text === '' && takes(null)) return null;
  if (text === '') return takes('') || !takes(undefined) ? '' : undefined;
  return (fieldKind(field) === 'number' ? readNumber(text.replace(/\s*(?:mm|°)$/i, '')) : null) ?? text;
}
