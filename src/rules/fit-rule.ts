/**
 * A family's fit rule as data: what limits a device, by how much, and who says so.
 * Every figure carries its source, or 'common practice, no source'. A clinic may change or add one (see load-rules.ts).
 */
import { z } from 'zod';
import { measureId } from '../records/measure.js';

const source = z.string().min(4);
/** One number and where it is from. */
const figure = z.strictObject({ value: z.number().min(0), source });
const statement = z.strictObject({ text: z.string().min(1), source });
/** Applies to ages from `fromYears` up to, not including, `toYears`. */
const ageBand = { fromYears: z.number().min(0), toYears: z.number().positive() };

export const adjustmentKinds = ['side-bar', 'relief', 'trim', 'relocated-joint', 'strap', 'pad'] as const;

const adjustable = z.strictObject({
  kinds: z.array(z.enum(adjustmentKinds)).min(1),
  /** Most that adjusting gains in all, mm. Shown to the clinician; only recorded events and bars move a limit. */
  upToMm: figure,
  /** Smallest step (hole spacing), mm. */
  stepMm: figure.nullable().default(null),
  /** Heights further up the same frame that move with a side bar of this one. */
  raises: z.array(measureId).default([]),
});

export const fitDimension = z.strictObject({
  measure: measureId,
  /** What on the device is held against what on the body. */
  landmark: z.string().min(1),
  /** Growth since the cast at which this dimension has outgrown the device, mm. */
  allowanceMm: figure,
  /** The same where the plate ends behind the toes and there is no toe overhang to judge. */
  allowanceBehindToesMm: figure.nullable().default(null),
  /** A first warning, growth since cast, mm. */
  warnAtMm: figure.nullable().default(null),
  /** One SD of how far a device's real limit lies from the default allowance, mm. */
  toleranceMm: figure,
  /** With less room than this a reviewer calls it tight, mm. */
  tightWithinMm: figure,
  adjustable: adjustable.nullable().default(null),
  /** Counts only where this child has been measured in it: predicted from stature alone it is too vague to set a date. */
  needsOwnReading: z.boolean().default(false),
  /** Footplates for which the dimension means anything. */
  footplates: z.array(z.enum(['full', 'behind-toes', 'none'])).default(['full', 'behind-toes', 'none']),
  outgrownWhen: statement,
});
export type FitDimension = z.infer<typeof fitDimension>;

export const familyRule = z.strictObject({
  id: z
    .string()
    .regex(/^[a-z][a-z0-9-]*$/, { message: 'lower-case letters, digits and hyphens are accepted' }),
  name: z.string().min(1),
  /** What a family calls it. */
  plainName: z.string().min(1),
  /** Name by the joints it encompasses, after ISO 8549-3. */
  isoName: z.strictObject({ term: z.string(), abbreviation: z.string(), source }),
  worn: z.enum(['leg', 'both-legs', 'trunk', 'head']),
  dimensions: z.array(fitDimension).min(1),
  lifetimeMonths: z.array(
    z.strictObject({ ...ageBand, low: z.number().positive(), high: z.number().positive(), source }),
  ),
  typicalWear: z.array(statement).min(1),
  reviewDays: z.array(z.strictObject({ ...ageBand, days: z.number().positive(), source })).min(1),
  insensateReviewDays: figure,
  /** Days or weeks: how finely the outgrown date is stated, and how far ahead. */
  resolution: z.enum(['day', 'week']).default('week'),
  horizonDays: figure,
  /** A course of treatment with an end of its own. */
  courseDays: figure.nullable().default(null),
  notes: z.array(statement).default([]),
});
export type FamilyRule = z.infer<typeof familyRule>;
export type FitRules = ReadonlyMap<string, FamilyRule>;
