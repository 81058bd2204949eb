/** What a family is shown and asked. */

import { z } from 'zod';
import type { FamilyAnswer } from '../../records/family-answer.js';

export const familyLink = z.object({
  id: z.string(),
  childId: z.string(),
  label: z.string(),
  expiresAt: z.string(),
  withdrawnAt: z.string().nullable(),
  createdBy: z.string(),
  createdAt: z.string(),
  lastUsedAt: z.string().nullable(),
});
export type FamilyLink = Readonly<z.infer<typeof familyLink>>;

export const newFamilyLink = z.object({
  label: z.string().max(80).default(''),
  days: z.number().int().min(1).max(400).default(90),
});

/** `token` is shown once; only its signature can be checked afterwards. */
export type NewFamilyLink = FamilyLink & { readonly token: string };

/** Two questions asked through a family's link. An answer is evidence for a clinician; by itself it changes nothing. */
export interface FamilyQuestion {
  readonly id: string;
  readonly childId: string;
  readonly deviceId: string | null;
  readonly askedBy: string;
  readonly askedAt: string;
  readonly answer: (FamilyAnswer & { readonly at: string }) | null;
}

export interface WaitingAnswer extends FamilyQuestion {
  readonly childName: string;
  readonly contact: string;
}
