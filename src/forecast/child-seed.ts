/** A child's own seed from the run's seed and the child's id (FNV-1a, 32 bits), so that order changes nothing. */
export function childSeed(seed: number, childId: string): number {
  let hash = 0x811c9dc5 ^ seed;
  for (let i = 0; i < childId.length; i++) hash = Math.imul(hash ^ childId.charCodeAt(i), 0x01000193);
  return hash | 0;
}
