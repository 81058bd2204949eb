import { createHash } from 'node:crypto';

/** The same content gets the same id in every import: 'm-3f9a0c51d2e7'. */
export function contentId(prefix: string, ...parts: readonly (string | number | null)[]): string {
  const hash = createHash('sha256').update(parts.map(String).join('\u0000')).digest('hex');
  return `${prefix}-${hash.slice(0, 12)}`;
}

/** Was this id made of content, because the list gave none? */
export const isContentId = (id: string): boolean => /^[a-z]-[0-9a-f]{12}(-\d+)?$/.test(id);

/** Gives `id`, or `id-2`, `id-3` ... where earlier rows without an id of their own made the same. */
export function uniqueId(used: Set<string>, id: string): string {
  let free = id;
  for (let n = 2; used.has(free); n++) free = `${id}-${n}`;
  used.add(free);
  return free;
}
