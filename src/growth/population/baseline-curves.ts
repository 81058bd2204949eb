import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';

const shipped = fileURLToPath(new URL('../../../models/baselines/baseline-curves.json', import.meta.url));

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

/** What the backtest compares the growth model with: fitted numbers only, written by `doorpost fit baselines`. */
export const loadBaselineCurves = (): CohortBaselines =>
  cohortBaselines.parse(JSON.parse(readFileSync(shipped, 'utf8')));
