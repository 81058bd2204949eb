const names = new Intl.DisplayNames('en', { type: 'language' });

/** 'Arabic' of a language tag; the tag itself where it has no name. */
export function languageName(tag: string): string {
  try {
    return names.of(tag) ?? tag;
  } catch {
    return tag;
  }
}
