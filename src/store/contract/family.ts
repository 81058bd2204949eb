/** What a family is shown and asked. */

import { z } from 'zod';
import type { FamilyAnswer } from '../../records/family-answer.js';
import type { Actor } from './actor.js';

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

export interface FamilyLinksRepository {
  list(childId: string, actor: Actor): Promise<readonly FamilyLink[]>;
  create(childId: string, label: string, days: number, now: Date, actor: Actor): Promise<NewFamilyLink>;
  withdraw(linkId: string, now: Date, actor: Actor): Promise<void>;
  /** The child a token opens and the actor to read it as; throws 'link-not-valid' when forged, expired or withdrawn. */
  open(
    token: string,
    now: Date,
  ): Promise<{ readonly childId: string; readonly actor: Actor; readonly expiresAt: string }>;
}

export interface FamilyQuestionsRepository {
  /** One open question a child; asked again it is for the device given now. */
  ask(childId: string, deviceId: string, now: Date, actor: Actor): Promise<void>;
  /** Open and answered ones a clinician has not decided on, newest first; whoever asks has read the child's record. */
  ofChild(childId: string): Promise<readonly FamilyQuestion[]>;
  /** Answers of active children that wait for a clinician, oldest first. */
  waiting(actor: Actor): Promise<readonly WaitingAnswer[]>;
  /** Throws 'not-found' where it is another child's or was answered. */
  answer(id: string, childId: string, answer: FamilyAnswer, now: Date, actor: Actor): Promise<FamilyQuestion>;
  decide(
    id: string,
    childId: string,
    decision: 'accepted' | 'set-aside',
    now: Date,
    actor: Actor,
  ): Promise<FamilyQuestion>;
}
