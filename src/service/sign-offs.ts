import { createHash } from 'node:crypto';
import { z } from 'zod';
import { DoorpostError } from '../errors.js';
import { acceptedChance } from '../recall/decide/accepted-chance.js';
import { recallSettings } from '../recall/decide/recall-settings.js';
import { loadRules } from '../rules/load-rules.js';
import { type Actor, type Store, signOff } from '../store/contract.js';
import { version } from './version.js';

export const signOffSubjects = ['fit-limits', 'accepted-chance', 'family-words'] as const;

/** One default that a licensed practitioner of the clinic reads and signs before it is relied on. */
export const signOffView = z.object({
  subject: z.enum(signOffSubjects),
  label: z.string(),
  says: z.string().describe('what exactly is signed, with its figures'),
  href: z.string().nullable().describe('where it is read; null where the sentence says it all'),
  content: z.string().describe('digest of what stands now; a signature of another content no longer counts'),
  signed: signOff.nullable(),
  holds: z.boolean().describe('signed, and unchanged since'),
});
export type SignOffView = Readonly<z.infer<typeof signOffView>>;

const digest = (content: unknown): string =>
  createHash('sha256').update(JSON.stringify(content)).digest('hex').slice(0, 16);
let shippedRules = '';

/** What is to be signed and by whom it was, in the order of the page. */
export async function signOffViews(store: Store): Promise<readonly SignOffView[]> {
  const [latest, limitsVersion, { value: settings }] = await Promise.all([
    store.signOffs.latest(),
    store.fitLimits.version(),
    store.settings.get(),
  ]);
  shippedRules ||= digest(loadRules());
  const chance = settings.acceptedChance;
  const percent = (harm: number) => `${Math.round(100 * acceptedChance(harm, { acceptedChance: chance }))} %`;
  const { wearReviewMonths } = recallSettings.parse({});
  const subjects: readonly Omit<SignOffView, 'signed' | 'holds'>[] = [
    {
      subject: 'fit-limits',
      label: 'Fit limits',
      says: 'By how many mm of growth each family of device counts as outgrown, its adjustments, review days and usual turnaround.',
      href: '/fit-rules',
      content: digest([shippedRules, limitsVersion]),
    },
    {
      subject: 'accepted-chance',
      label: 'Accepted chance and weight of a day beyond use',
      says:
        `A cast is due before the chance of being beyond use reaches ${percent(1)} for ordinary skin, ` +
        `${percent(settings.harmInsensate)} for skin that cannot warn (a day beyond use counts ${settings.harmInsensate} times), ` +
        `${percent(2)} for spinal and cranial orthoses; wear is reviewed every ${wearReviewMonths} months where growth does not decide.`,
      href: null,
      content: digest([percent(1), settings.harmInsensate, wearReviewMonths]),
    },
    {
      subject: 'family-words',
      label: 'Words to families',
      says: `What the family’s page and sheet, the letters and the sentence to read out say, as of doorpost ${version}: read them on a child’s Family sheet, on the recall list and in its letters.`,
      href: null,
      content: digest([version]),
    },
  ];
  return subjects.map((s) => {
    const signed = latest.find((row) => row.subject === s.subject) ?? null;
    return { ...s, signed, holds: signed?.content === s.content };
  });
}

/** Who signs, as they write it themselves. */
export const signer = z.object({
  name: z.string().trim().min(2).max(120).describe('of whoever signs'),
  profession: z.string().trim().min(2).max(160).describe('profession and registration'),
});

export const signature = z.strictObject({
  subject: z.enum(signOffSubjects),
  content: z
    .string()
    .min(1)
    .max(64)
    .describe('`content` of what was read: a change made meanwhile is refused'),
  ...signer.shape,
});

/** Keeps a signature to what stands now; page and interface sign through it. */
export async function signDefault(
  store: Store,
  signed: z.infer<typeof signature>,
  actor: Actor,
): Promise<void> {
  const standing = (await signOffViews(store)).find((view) => view.subject === signed.subject);
  if (standing?.content !== signed.content)
    throw new DoorpostError('changed-meanwhile', 'This changed since it was read: read it again, then sign');
  await store.signOffs.sign(signed, actor);
}
