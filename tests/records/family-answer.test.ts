import { expect, it } from 'vitest';
import { minutesThatFit, stopsWearing } from '../../src/records/family-answer.js';

// Redness of more than 20 minutes, a blister or open skin: stop and ring (NHS Fife leaflet, excerpt).
it('a brace is not worn on where marks last or the skin is open', () => {
  const stops = (['none', 'fades', 'lasts', 'open'] as const).filter((marks) => stopsWearing({ marks }));
  expect(stops).toEqual(['lasts', 'open']);
});

it('minutes that say another thing than the mark are not kept with it: the clinic asks', () => {
  const kept = (marks: 'none' | 'fades' | 'lasts', minutes: number) =>
    minutesThatFit({ marks, minutes, toes: null, place: '' });
  expect([kept('fades', 15), kept('lasts', 40)]).toEqual([15, 40]);
  expect(kept('fades', 45)).toBeNull();
});
