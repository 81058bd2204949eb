import { describe, expect, it } from 'vitest';
import { shoeFootLengthsMm, shoeSizesFor, shoeStepMm } from '../../src/records/shoe-size.js';

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

  it('and back: of every foot the smallest size made for it, at most one step longer', () => {
    const number = (size: string) => Number(size.replace('½', '.5'));
    for (let foot = 100; foot <= 280; foot++) {
      const sizes = shoeSizesFor(foot);
      for (const system of ['EU', 'UK', 'US', 'Mondopoint'] as const) {
        const beyond = shoeFootLengthsMm(system, number(sizes[system])).map((mm) => mm - foot);
        const step = shoeStepMm(system) / (system === 'UK' || system === 'US' ? 2 : 1);
        expect(beyond.some((mm) => mm > -0.01 && mm <= step)).toBe(true);
      }
    }
    expect(shoeSizesFor(185)).toEqual({ EU: '30', UK: '12', US: '12½', Mondopoint: '185' });
  });
});
