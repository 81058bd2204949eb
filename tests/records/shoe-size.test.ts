import { describe, expect, it } from 'vitest';
import { shoeFootLengthsMm, shoeStepMm } from '../../src/records/shoe-size.js';

/** Sizes that shops hold side by side (from memory of common conversion charts, not read): within one European size. */
const SIDE_BY_SIDE = [
  { eu: 24, uk: 7, us: 8 },
  { eu: 28, uk: 10, us: 11 },
  { eu: 30, uk: 11.5, us: 12 },
  { eu: 33, uk: 1, us: 1.5 },
  { eu: 38, uk: 5, us: 6 },
];

describe('shoe sizes as foot lengths', () => {
  it.each(SIDE_BY_SIDE)('EU $eu, UK $uk and US $us are made for about the same foot', ({ eu, uk, us }) => {
    const [foot] = shoeFootLengthsMm('EU', eu);
    for (const [system, size] of [
      ['UK', uk],
      ['US', us],
    ] as const) {
      const nearest = Math.min(...shoeFootLengthsMm(system, size).map((mm) => Math.abs(mm - foot)));
      expect(nearest).toBeLessThanOrEqual(shoeStepMm('EU'));
    }
  });
});
