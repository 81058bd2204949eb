/** What a clinic decides for itself. */

import { z } from 'zod';
import { limitPlace } from '../../rules/clinic-limits.js';

/** One change of the clinic's limits; rows saved together share their version. */
export const limitChangeRow = z.object({
  id: z.string(),
  version: z.number().int(),
  ...limitPlace,
  mm: z.number().nullable().describe('null: back to the shipped figure'),
  beforeMm: z.number().describe('what stood before, the clinic’s or the shipped figure'),
  reason: z.string(),
  by: z.string(),
  at: z.iso.datetime(),
});
export type LimitChangeRow = Readonly<z.infer<typeof limitChangeRow>>;

export const signOff = z.object({
  subject: z.string(),
  content: z.string().describe('a digest of what was signed: another content is unsigned again'),
  name: z.string().describe('as the practitioner signs'),
  profession: z.string().describe('with the registration, as typed'),
  by: z.string().describe('the sign-in name of who signed'),
  at: z.iso.datetime(),
});
export type SignOff = Readonly<z.infer<typeof signOff>>;
