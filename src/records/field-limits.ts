import { z } from 'zod';

export interface FieldLimits {
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
  if (field instanceof z.ZodString) return field.maxLength === null ? {} : { maxLength: field.maxLength };
  if (!(field instanceof z.ZodNumber)) return {};
  const { minValue, maxValue } = field;
  return {
    ...(minValue !== null && Number.isFinite(minValue) ? { min: minValue } : {}),
    ...(maxValue !== null && Number.isFinite(maxValue) ? { max: maxValue } : {}),
  };
}
