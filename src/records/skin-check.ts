import { z } from 'zod';
import { side } from './measure.js';
import { isoDateText, note, recordId } from './records.js';

/** Redness that has not gone this many minutes after the device came off is lasting (NHS Fife leaflet, excerpt: 20-30). */
export const FADES_WITHIN_MINUTES = 20;

/** What the skin under a device looked like, least first. */
export const skinStates = ['none', 'fades', 'lasts', 'open'] as const;
export type SkinState = (typeof skinStates)[number];

/** One look at the skin, at a visit or told by the family. */
export const skinCheckFields = z.object({
  id: recordId,
  childId: recordId,
  /** The device that was taken off; null where it was not said. */
  deviceId: recordId.nullable().default(null),
  date: isoDateText,
  /** none; redness that fades within 20 minutes; redness that lasts longer; open skin or a blister. */
  state: z.enum(skinStates),
  /** How long the mark took to fade, or has lasted so far, minutes. */
  minutes: z.number().int().min(0).max(10_080).nullable().default(null),
  /** 'medial malleolus', 'sacrum'; free text. */
  where: z.string().max(120).default(''),
  side: side.nullable().default(null),
  /** The skin there does not feel, whatever the child's record says of the rest. */
  cannotWarn: z.boolean().default(false),
  observer: z.string().max(80).default(''),
  note,
});

const minutesOf = {
  none: { fits: () => false, accepted: 'no minutes where there is no mark' },
  fades: {
    fits: (minutes: number) => minutes <= FADES_WITHIN_MINUTES,
    accepted: `0 to ${FADES_WITHIN_MINUTES} minutes for a mark that fades; a longer one lasts`,
  },
  lasts: {
    fits: (minutes: number) => minutes > FADES_WITHIN_MINUTES,
    accepted: `more than ${FADES_WITHIN_MINUTES} minutes for a mark that lasts; a shorter one fades`,
  },
  open: { fits: () => true, accepted: '' },
} as const satisfies Record<SkinState, unknown>;

/** The minutes must say the same as the state. */
export function refuseMinutes(
  { state, minutes }: { state: SkinState; minutes: number | null },
  context: z.RefinementCtx,
): void {
  if (minutes === null || minutesOf[state].fits(minutes)) return;
  context.addIssue({
    code: 'custom',
    path: ['minutes'],
    message: `${minutesOf[state].accepted} is accepted`,
  });
}

export const skinCheckRecord = skinCheckFields.superRefine(refuseMinutes);
export type SkinCheck = z.infer<typeof skinCheckRecord>;
