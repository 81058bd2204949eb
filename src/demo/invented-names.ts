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
/** A number that no exchange gives out. */
export const inventedContact = (c: Chance, surname: string): string =>
  `Carer ${inventedGivenName(c)} ${surname}, telephone 000 ${c.whole(100, 999)} ${c.whole(1000, 9999)}`;
