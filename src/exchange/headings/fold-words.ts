import { remembered } from '../remembered.js';

/**
 * A text as the words it is compared by: small letters without accents, ae oe ue as a o u (so that Fusslaenge and
 * Fußlänge are the same), 'D.O.B.' and 'DOB' the same, 'FootL' and 'LFoot' two words. foldWords('Fuß-Länge li. (cm)') = ['fus', 'lange', 'li', 'cm'].
 */
export function foldWords(text: string): string[] {
  const folded = text
    .slice(0, 500)
    .replace(/\b(\p{L})\.(?=\p{L}(?:\.|\b))/gu, '$1')
    .replace(/\bDoB\b/g, 'DOB')
    .replace(/([\p{Ll}])(\p{Lu})/gu, '$1 $2')
    .replace(/(?<!\p{L})(\p{Lu})(?=\p{Lu}\p{Ll}{2})/gu, '$1 ')
    .replace(/ß/g, 'ss')
    .replace(/œ/gi, 'oe')
    .replace(/["″”]|''/g, ' inch ')
    .replace(/n[º°]/gi, 'no ')
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/#/g, ' no ')
    .replace(/ae/g, 'a')
    .replace(/oe/g, 'o')
    .replace(/ue/g, 'u')
    .replace(/ss/g, 's');
  return folded.match(/\p{L}+|\d+/gu) ?? [];
}

/** The same as one text: 'fus lange li cm'. */
export const foldText = remembered((text) => foldWords(text).join(' '));

/** The phrases of a list with | between them, folded; those that fold to nothing are left out. */
export const phrasesOf = (list: string): string[] =>
  list
    .split('|')
    .map(foldText)
    .filter((phrase) => phrase !== '');
