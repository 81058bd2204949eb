/**
 * A family's fit rule as data: what limits a device, by how much, what adjusts it, and who says so.
 * Every figure carries its source, or 'common practice, no source'. A clinic may change or add one (see load-rules.ts).
 */
import { z } from 'zod';
import { adjustmentKinds, type Device } from '../records/device.js';
import { measureId } from '../records/measure.js';

const source = z.string().min(4);
/** One number and where it is from. */
const figure = z.strictObject({ value: z.number().min(0), source });
const statement = z.strictObject({ text: z.string().min(1), source });
/** Applies to ages from `fromYears` up to, not including, `toYears`. */
const ageBand = { fromYears: z.number().min(0), toYears: z.number().positive() };

/** One way of making room in a dimension; each has a budget of its own. */
const means = z.strictObject({
  kind: z.enum(adjustmentKinds),
  /** Most that this way gains in all, mm. Of a side bar the usual travel: what a device has is recorded with it. */
  upToMm: figure,
  /** Smallest step (hole spacing), mm. */
  stepMm: figure.nullable().default(null),
  /** Heights further up the same frame that a side bar of this joint lifts as well. */
  raises: z.array(measureId).default([]),
});
export type Means = z.infer<typeof means>;

export const fitDimension = z.strictObject({
  measure: measureId,
  /** What on the device is held against what on the body. */
  landmark: z.string().min(1),
  /** Growth since the cast at which this dimension needs adjusting or has outgrown the device, mm. */
  allowanceMm: figure,
  /** The same by age at the cast, where it differs. */
  allowanceByAge: z.array(z.strictObject({ ...ageBand, value: z.number().positive(), source })).default([]),
  /** The same where the plate ends behind the toes and there is no toe overhang to judge. */
  allowanceBehindToesMm: figure.nullable().default(null),
  /**
   * Made larger than the body by the allowance (a plate, a shell with voids). All else is made to the cast, a joint
   * axis above all, and the allowance is how far the body may grow past it.
   */
  builtIn: z.boolean().default(false),
  /** One SD of how far a device's real limit lies from the default allowance, mm. */
  toleranceMm: figure,
  /** With less room than this a reviewer calls it tight, mm. */
  tightWithinMm: figure,
  /** Ways of making room, in the order in which they are tried. */
  adjustments: z.array(means).default([]),
  /** Without a reading of it the family cannot be judged: ask for one. */
  essential: z.boolean().default(false),
  /** Counts only while this other measure has not been taken of the child. */
  standsInFor: measureId.nullable().default(null),
  /** Footplates for which the dimension means anything. */
  footplates: z.array(z.enum(['full', 'behind-toes', 'none'])).default(['full', 'behind-toes', 'none']),
  outgrownWhen: statement,
});
export type FitDimension = z.infer<typeof fitDimension>;

/** Whether the device is made larger by its allowance: a plate that ends behind the toes is not. */
export const isBuiltIn = (d: FitDimension, footplate: Device['footplate']): boolean =>
  d.builtIn && footplate !== 'behind-toes';

/** The side bar of a dimension's joint, if it has one. */
export const sideBarOf = (d: FitDimension): Means | undefined =>
  d.adjustments.find((a) => a.kind === 'side-bar');

/** Names in one language: what a clinician writes, and what a family calls it (with its article where the language bends it). */
const names = z.strictObject({ clinical: z.string().min(1), plain: z.string().min(1) });
/** By language; English is always there and stands in for a language that is not. */
const namesByLanguage = z.record(z.string().regex(/^[a-z]{2}$/), names).and(z.object({ en: names }));
export type NamesByLanguage = z.infer<typeof namesByLanguage>;

/** A part that is renewed alone while the rest of the device goes on. */
const part = z.strictObject({
  id: z.string().regex(/^[a-z][a-z0-9-]*$/),
  names: namesByLanguage,
  /** Dimensions that start anew with it. */
  renews: z.array(measureId).default([]),
  /** Days from measuring or casting it to having it in place, half of the time. */
  turnaroundDays: figure,
});

/** Where it is worn. A device takes the place of another of the same region; the signs a family looks for are those of the region. */
export const regions = [
  'foot',
  'shoe',
  'boots',
  'ankle-foot',
  'knee',
  'long-leg',
  'hip',
  'trunk',
  'head',
  'wrist-hand',
] as const;
export type Region = (typeof regions)[number];

export const familyRule = z.strictObject({
  id: z
    .string()
    .regex(/^[a-z][a-z0-9-]*$/, { message: 'lower-case letters, digits and hyphens are accepted' }),
  names: namesByLanguage,
  /** Other words and abbreviations under which clinics record it. */
  alsoWritten: z.array(z.string().min(1)).default([]),
  region: z.enum(regions),
  /** 'one': a device a side; 'both': one frame or pair for both sides; 'none': trunk or head. */
  sides: z.enum(['one', 'both', 'none']),
  /** How much a day beyond use matters, against ordinary skin in a limb device. */
  harmADay: figure,
  dimensions: z.array(fitDimension).min(1),
  parts: z.array(part).default([]),
  /** Days from cast to fitting, half of the time, before a clinic has jobs of its own. */
  turnaroundDays: figure,
  lifetimeMonths: z.array(
    z.strictObject({ ...ageBand, low: z.number().positive(), high: z.number().positive(), source }),
  ),
  /** What a review looks at besides growth. */
  wear: z.array(statement).min(1),
  reviewDays: z.array(z.strictObject({ ...ageBand, days: z.number().positive(), source })).min(1),
  insensateReviewDays: figure,
  /** Days or weeks: how finely the outgrown date is stated, and how far ahead. */
  resolution: z.enum(['day', 'week']).default('week'),
  horizonDays: figure,
  /** A course of treatment with an end of its own. */
  courseDays: figure.nullable().default(null),
  /** For the clinician, beside the device. */
  notes: z.array(statement).default([]),
});
export type FamilyRule = z.infer<typeof familyRule>;
export type FitRules = ReadonlyMap<string, FamilyRule>;

/** Is it there to hold the hips, so that their angle is what a visit looks for? */
export const holdsHips = (rule: FamilyRule | null | undefined): boolean => rule?.region === 'hip';
