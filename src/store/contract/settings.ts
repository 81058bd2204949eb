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

export interface SignOff {
  readonly subject: string;
  /** A digest of what was signed: another content is unsigned again. */
  readonly content: string;
  /** As the practitioner signs, with the profession and registration as typed. */
  readonly name: string;
  readonly profession: string;
  /** The sign-in name of who signed. */
  readonly by: string;
  readonly at: string;
}
