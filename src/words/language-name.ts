/** 'Arabic' of a language tag; the tag itself where it has no name. */
export function languageName(tag: string): string {
  try {
    return new Intl.DisplayNames('en', { type: 'language' }).of(tag) ?? tag;
  } catch {
    return tag;
  }
}
