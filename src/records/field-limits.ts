import { z } from 'zod';

export interface FieldLimits {
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly min?: number;
  readonly max?: number;
}

/**
 * How long a text and how large a number may be, read off the record's own field: what a form's control and its hint
 * say. fieldLimits(childRecord.shape.gestationWeeks) = { min: 22, max: 44 }.
 */
export function fieldLimits(field: z.ZodType): FieldLimits {
  if (field instanceof z.ZodDefault || field instanceof z.ZodNullable || field instanceof z.ZodOptional)
    return fieldLimits(field.unwrap() as z.ZodType);
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
      Object.entries(schema.shape).map(([key, field]) => [
        key,
        (field instanceof z.ZodDefault ? (field.unwrap() as z.ZodType) : (field as z.ZodType)).optional(),
      ]),
    ) as { [K in keyof T['shape']]: z.ZodOptional<z.ZodType<z.output<T['shape'][K]>>> },
  );
