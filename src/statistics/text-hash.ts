/** 32-bit FNV-1a hash of a text (Fowler, Noll, Vo 1991), from a start other than its own where one is given. */
export function textHash(text: string, start = 0): number {
  let hash = 0x811c9dc5 ^ start;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash | 0;
}

/** Near numbers sent far apart (Murmur3's 32-bit finaliser, Appleby 2011): seeds that begin alike draw unlike. */
export function scattered(seed: number): number {
  let h = seed | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return h ^ (h >>> 16);
}
