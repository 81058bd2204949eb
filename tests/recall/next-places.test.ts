import { describe, expect, it } from 'vitest';
import { nextPlaces, placesOn } from '../../src/recall/level/next-places.js';
import { ringAgainOn } from '../../src/recall/ring-again.js';

// 2026-11-27 is a Friday. Common practice, no source.
const clinic = { clinicians: [{ id: 'a', slotsPerWeek: 10 }] };

describe('places of today and the next working day', () => {
  it('counts what is booked, and passes over the weekend', () => {
    expect(nextPlaces(clinic, ['2026-11-27', '2026-11-27', '2026-11-30'], '2026-11-27')).toEqual([
      { day: '2026-11-27', places: 2, booked: 2, free: 0 },
      { day: '2026-11-30', places: 2, booked: 1, free: 1 },
    ]);
  });

  it('has none on a closed day, a weekend, or while whoever casts is away', () => {
    const closed = { ...clinic, clinicClosures: [{ from: '2026-11-27', to: '2026-12-04' }] };
    expect(nextPlaces(closed, [], '2026-11-27')).toEqual([]);
    expect(placesOn(clinic, '2026-11-28')).toBe(0);
    const away = [{ id: 'a', slotsPerWeek: 10, away: [{ from: '2026-11-27', to: '2026-11-27' }] }];
    expect(placesOn({ clinicians: away }, '2026-11-27')).toBe(0);
  });
});

describe('ringAgainOn', () => {
  it('is two working days after the message', () => {
    expect([ringAgainOn('2026-11-25'), ringAgainOn('2026-11-27')]).toEqual(['2026-11-27', '2026-12-01']);
  });
});
