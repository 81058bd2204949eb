import { z } from 'zod';
import { refuseMinutes, skinStates } from './skin-check.js';

/** What a family saw of the room at the toes: a finger's width, less, at or over the edge. */
export const toeRooms = ['finger', 'less', 'over', 'unsure'] as const;
export type ToeRoom = (typeof toeRooms)[number];

/** What a family answers through its link. Evidence for a clinician: by itself it changes no record. */
export const familyAnswerFields = z.object({
  /** Null where the device has no toes to look at. */
  toes: z.enum(toeRooms).nullable(),
  marks: z.enum(skinStates),
  place: z.string().trim().max(120).default(''),
  minutes: z.number().int().min(0).max(10_080).nullable().default(null),
});
export type FamilyAnswer = z.infer<typeof familyAnswerFields>;

/** Marks with which a brace is not worn on until somebody has looked. */
export const stopsWearing = ({ marks }: Pick<FamilyAnswer, 'marks'>): boolean =>
  marks === 'lasts' || marks === 'open';

/** The minutes where they go with the mark; a family that says '45 minutes' and 'it fades' is asked by the clinic. */
export const minutesThatFit = ({ marks, minutes }: FamilyAnswer): number | null => {
  const fits = z
    .object({ state: z.enum(skinStates), minutes: z.number().nullable() })
    .superRefine(refuseMinutes)
    .safeParse({ state: marks, minutes }).success;
  return fits ? minutes : null;
};
