import type { z } from 'zod';
import type { Actor, SignOff, Store } from '../store/contract.js';
import { familyLanguages } from '../words/family/family-languages.js';
import type { FamilyWords } from '../words/family/family-words.js';
import type { signer } from './sign-offs.js';
import { version } from './version.js';

const subjectOf = (language: string) => `family-language-${language}`;

/** A language of the family's sheet, and the native reader who signed its words as this version has them. */
export interface ReadLanguage {
  readonly language: string;
  readonly name: string;
  readonly signed: SignOff | null;
}

export async function readLanguages(store: Store): Promise<readonly ReadLanguage[]> {
  const latest = await store.signOffs.latest();
  return familyLanguages.map(({ language, name }) => {
    const signed = latest.find((s) => s.subject === subjectOf(language) && s.content === version) ?? null;
    return { language, name, signed };
  });
}

/** Have a native reader's eyes been over these words, as this version has them? */
export const isSigned = (
  languages: readonly ReadLanguage[],
  { language }: Pick<FamilyWords, 'language'>,
): boolean => languages.some((l) => l.language === language && l.signed !== null);

/** Keeps that a native reader found the words of a language right. */
export const signLanguage = (
  store: Store,
  language: string,
  reader: z.infer<typeof signer>,
  actor: Actor,
): Promise<void> => store.signOffs.sign({ subject: subjectOf(language), content: version, ...reader }, actor);
