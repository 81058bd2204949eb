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

/** The same names, days and sizes stand in many lines: each text is held once. Long or rare ones stand alone. */
export function heldOnce(): (text: string) => string {
  const known = new Map<string, string>();
  return (text) => {
    const one = known.get(text);
    if (one !== undefined) return one;
    if (known.size >= MOST) known.clear();
    if (text.length <= 40) known.set(text, text);
    return text;
  };
}
