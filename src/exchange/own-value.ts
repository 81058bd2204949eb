/**
 * What a table of ours says to a word that somebody typed. Asked with [], 'constructor' and 'toString' would find
 * what every object inherits.
 */
export function ownValue<T>(
  table: Readonly<Record<string, T>>,
  word: string | null | undefined,
): T | undefined {
  return word !== null && word !== undefined && Object.hasOwn(table, word) ? table[word] : undefined;
}
