import { z } from 'zod';
import { measureId } from '../records/measure.js';

/** The sexes a growth reference exists for. */
export const referenceSex = z.enum(['male', 'female']);
export type ReferenceSex = z.infer<typeof referenceSex>;

/** One line of reference-data/<source>/table.csv: m in mm, or kg for weight. */
export const referenceRow = z.object({
  measure: measureId,
  sex: referenceSex,
  ageYears: z.number().min(0).max(25),
  l: z.number().min(-10).max(10),
  m: z.number().positive(),
  s: z.number().positive().max(1),
});
export type ReferenceRow = z.infer<typeof referenceRow>;

/** Header of table.csv: a row fills m_mm for a length or girth and m_kg for weight, and leaves the other empty. */
export const referenceColumns = ['measure', 'sex', 'age_years', 'l', 'm_mm', 'm_kg', 's'] as const;
