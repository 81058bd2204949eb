import type { Chance } from './chance.js';

/** Syllables of no language: nobody is called this. */
const FIRST = [
  'Tu',
  'Or',
  'Fen',
  'Ka',
  'Mi',
  'Zo',
  'Bel',
  'Ni',
  'Sa',
  'Qui',
  'Ur',
  'Lo',
  'Ve',
  'Hal',
  'Yo',
  'Wi',
];
const MIDDLE = ['li', 'ru', 'da', 'mo', 'ssa', 'pe', 'zi', 'na', 'vo', 'ke'];
const LAST = ['n', 'ko', 'bel', 'x', 'ri', 'm', 'sha', 'lo', 'qua', 'ff'];
const HOUSE = [
  'Moss',
  'Tin',
  'Lantern',
  'Puddle',
  'Ember',
  'Thimble',
  'Cloud',
  'Button',
  'Gravel',
  'Feather',
];
const HOLD = ['whistle', 'acre', 'snap', 'kettle', 'brook', 'latch', 'wick', 'hollow', 'tumble', 'sprig'];

export const inventedGivenName = (c: Chance): string => c.oneOf(FIRST) + c.oneOf(MIDDLE) + c.oneOf(LAST);
export const inventedSurname = (c: Chance): string => c.oneOf(HOUSE) + c.oneOf(HOLD);
/** From a range that the United Kingdom's regulator keeps for films and books, so that nobody is rung (from memory). */
export function inventedContact(c: Chance, surname: string): string {
  const carer = `Carer ${inventedGivenName(c)} ${surname}`;
  const ending = c.whole(100, 999);
  return `${carer}, telephone ${c.happens(0.5) ? '07700 900' : '01632 960'}${ending}`;
}
