import { z } from 'zod';
import { isoDateText as date } from '../../records/records.js';
import { loadRules } from '../../rules/load-rules.js';

/** Device families there are limits for. */
export const families = [...loadRules().keys()] as [string, ...string[]];
const span = z
  .object({ from: date, to: date })
  .refine((s) => s.from <= s.to, { path: ['to'], message: 'a day not before `from` is accepted' });
const slots = z.number().int().min(0).max(1000);

const clinician = z.object({
  name: z.string().trim().min(1).max(80),
  slotsPerWeek: slots.default(0).describe('on any day'),
  slotsByWeekday: z
    .array(z.object({ weekday: z.number().int().min(1).max(7), slots: z.number().int().min(1).max(100) }))
    .max(7)
    .readonly()
    .default([])
    .describe('1 Monday .. 7 Sunday, beside those on any day'),
  away: z.array(span).max(100).readonly().default([]),
});

/** What the clinic and its workshop can do, week by week. */
export const clinicCapacitySettings = z.object({
  castingSlotsPerWeek: slots.describe('of the whole clinic, where no clinicians are named'),
  clinicians: z
    .array(clinician)
    .max(100)
    .refine((all) => new Set(all.map((c) => c.name)).size === all.length, {
      message: 'each name once is accepted',
    })
    .readonly(),
  workshop: z
    .array(
      z.object({
        families: z.array(z.enum(families)).max(50).readonly().describe('empty: all families together'),
        jobsPerWeek: z.number().int().min(0).max(5000),
      }),
    )
    .max(50)
    .readonly(),
  holidays: z
    .array(z.object({ from: date, to: date, name: z.string().max(80) }))
    .max(200)
    .readonly()
    .describe('school holidays'),
  closures: z.array(date).max(1000).readonly().describe('days the clinic sees nobody'),
  workshopClosures: z.array(span).max(200).readonly(),
});
export type ClinicCapacitySettings = z.infer<typeof clinicCapacitySettings>;

export const capacityOf = (settings: ClinicSettings): ClinicCapacitySettings =>
  Object.fromEntries(
    Object.entries(settings).filter(([name]) => name in clinicCapacitySettings.shape),
  ) as ClinicCapacitySettings;

export const monthsToNext = z.number().int().min(0).max(60);

/** What a clinic may set; defaults in people/default-settings.ts. */
export const clinicSettings = clinicCapacitySettings.extend({
  clinicName: z.string().max(200),
  contact: z.string().max(400),
  acceptedChance: z
    .number()
    .min(0.01)
    .max(0.5)
    .describe(
      'of being beyond use before the next device is fitted, ordinary skin; other skin and devices follow from it',
    ),
  harmInsensate: z
    .number()
    .min(1)
    .max(20)
    .describe('how much a day beyond use matters where the skin does not feel, against ordinary skin'),
  eligibleAfterMonths: z
    .record(z.string(), monthsToNext)
    .refine((all) => Object.keys(all).every((family) => families.includes(family)), {
      message: `a family of ${families.join(', ')} is accepted`,
    })
    .meta({
      description:
        'months before the funder pays for the next device of a side, by family; 0 or absent: no rule',
      maxProperties: families.length,
    }),
  language: z.string().min(2).max(35),
});
export type ClinicSettings = Readonly<z.infer<typeof clinicSettings>>;
