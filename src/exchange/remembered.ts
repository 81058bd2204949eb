const MOST = 20_000;

/** A function of a text that keeps what it found: the same few words, dates and sizes stand in every row of a sheet. */
export function remembered<T>(make: (text: string) => T): (text: string) => T {
  const known = new Map<string, T>();
  return (text) => {
    const before = known.get(text);
    if (before !== undefined) return before;
    const found = make(text);
    if (known.size >= MOST) known.clear();
    // A long text is somebody's remark and stands once.
    if (text.length <= 60) known.set(text, found);
    return found;
  };
}
