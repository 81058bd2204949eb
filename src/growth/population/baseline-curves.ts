import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import { DoorpostError } from '../../errors.js';

const shipped = fileURLToPath(new URL('../../../models/', import.meta.url));

const numbers = z.array(z.number());
const bySex = <T extends z.ZodType>(inner: T) => z.object({ male: inner, female: inner });

/** A cohort's mean and SD by age, and how far each plain method's forecasts missed in it. */
const cohortBaselines = z.object({
  /** Who was followed, how many, from where. */
  source: z.string().min(1),
  children: z.number().int(),
  /** Mean and SD of size per measure and sex at ages, mm. */
  curves: z.record(z.string(), bySex(z.object({ ageYears: numbers, meanMm: numbers, sdMm: numbers }))),
  horizonsYears: numbers,
  /** Root mean square error of a method's forecasts, mm: method, measure, noise, sex; sdMm[age][horizon]. */
  spread: z.record(
    z.string(),
    z.record(
      z.string(),
      z.record(z.string(), bySex(z.object({ ageYears: numbers, sdMm: z.array(numbers) }))),
    ),
  ),
});
export type CohortBaselines = z.infer<typeof cohortBaselines>;

/** models/<name>/baseline-curves.json: fitted numbers only, no child's rows. Written by `doorpost fit baselines`. */
export const baselineCurvesFile = z.object({
  name: z.string().min(1),
  version: z.string().min(1),
  seed: z.number().int(),
  children: cohortBaselines,
  infants: cohortBaselines,
});
export type BaselineCurvesFile = z.infer<typeof baselineCurvesFile>;

/** What the backtest compares the growth model with. */
export function loadBaselineCurves(name = 'baselines', folder = shipped): BaselineCurvesFile {
  const path = `${folder}/${name}/baseline-curves.json`;
  if (!/^[\w.-]+$/.test(name) || !existsSync(path))
    throw new DoorpostError('model-missing', `there are no baseline curves named '${name}'`, {
      given: name,
      accepted: "'baselines', or a name `doorpost fit baselines` wrote to models/",
    });
  return baselineCurvesFile.parse(JSON.parse(readFileSync(path, 'utf8')));
}
