/** A unit slip (cm for mm) or a lost decimal mark is a factor of ten; no clinic's own practice is. */
const FACTOR = 4;

/** The least and the most a clinic may set in place of a shipped figure, mm to a tenth: a quarter to four times. */
export function limitBounds(shippedMm: number): { readonly lowestMm: number; readonly highestMm: number } {
  return {
    lowestMm: Math.ceil((10 * shippedMm) / FACTOR) / 10,
    highestMm: Math.floor(10 * shippedMm * FACTOR) / 10,
  };
}
