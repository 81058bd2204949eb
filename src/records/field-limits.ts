import { z } from 'zod';

export interface FieldLimits {
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly min?: number;
  readonly max?: number;
}

/** A field without what only says that it may be left out. */
const bare = (field: z.ZodType): z.ZodType =>
  field instanceof z.ZodDefault || field instanceof z.ZodNullable || field instanceof z.ZodOptional
    ? bare(field.unwrap() as z.ZodType)
    : field;

/** The words of a choice. fieldOptions(childRecord.shape.sex) = ['male', 'female', 'unknown']. */
export function fieldOptions(field: z.ZodType): readonly string[] {
  const own = bare(field);
  return own instanceof z.ZodEnum ? own.options.map(String) : [];
}

export type FieldKind = 'tick' | 'choice' | 'several' | 'number' | 'columns' | 'date' | 'text';

/** How a person enters a record's field, by its schema. fieldKind(childRecord.shape.walks) = 'tick'. */
export function fieldKind(field: z.ZodType): FieldKind {
  const own = bare(field);
  if (own instanceof z.ZodBoolean) return 'tick';
  if (own instanceof z.ZodEnum) return 'choice';
  if (own instanceof z.ZodArray) return 'several';
  if (own instanceof z.ZodNumber) return 'number';
  if (own instanceof z.ZodRecord) return 'columns';
  return own.meta()?.format === 'date' ? 'date' : 'text';
}

/**
 * How long a text and how large a number may be, read off the record's own field: what a form's control and its hint
 * say. fieldLimits(childRecord.shape.gestationWeeks) = { min: 22, max: 44 }.
 */
export function fieldLimits(given: z.ZodType): FieldLimits {
  const field = bare(given);
  if (field instanceof z.ZodString) {
    const { minLength, maxLength } = field;
    return {
      // One character is what `required` says.
      ...(minLength !== null && minLength > 1 ? { minLength } : {}),
      ...(maxLength === null ? {} : { maxLength }),
    };
  }
  if (!(field instanceof z.ZodNumber)) return {};
  const { minValue, maxValue } = field;
  return {
    ...(minValue !== null && Number.isFinite(minValue) ? { min: minValue } : {}),
    ...(maxValue !== null && Number.isFinite(maxValue) ? { max: maxValue } : {}),
  };
}

/** A record's fields without defaults, so that a change touches only what it names. */
export const withoutDefaults = <T extends z.ZodObject>(schema: T) =>
  z.strictObject(
    Object.fromEntries(
      Object.entries<z.ZodType>(schema.shape).map(([key, field]) => {
        const left = (field instanceof z.ZodDefault ? (field.unwrap() as z.ZodType) : field).optional();
        return [key, field.description ? left.describe(field.description) : left];
      }),
    ) as { [K in keyof T['shape']]: z.ZodOptional<z.ZodType<z.output<T['shape'][K]>>> },
  );
