import { daysBetween, type IsoDate } from '../../records/dates.js';
import { lettersApart } from '../../statistics/letters-apart.js';
import { contentId } from '../csv/content-id.js';
import { foldText } from '../headings/fold-words.js';

/** A child met in a sheet, by whatever the sheet says of it. */
export interface Person {
  id: string;
  name: string;
  birthDate: IsoDate | null;
}

/** A name whichever of its words stands first. */
export const nameKey = (name: string): string => foldText(name).split(' ').sort().join(' ');

/** 'Twins: Ada and Max', 'Ada & Max'; not 'Twin 2, Max'. */
const SEVERAL =
  /\b(?:twins|triplets|siblings|zwillinge|drillinge|geschwister|jumeaux|jumelles|gemelos|gemelas|mellizos|tweeling|gemelli|gemelle)\b|[a-z] (?:and|und|et) [a-z]|[&+]/;

/** A name that is two children's: their sizes and devices would become one child's. */
export const namesSeveral = (name: string): boolean => SEVERAL.test(name.toLowerCase());

/** 'Bellandi T.' of 'Bellandi Tommaso': the same words, of one of the two some as their first letters. */
export function isShortOf(one: string, other: string): boolean {
  const left = foldText(other).split(' ');
  const words = foldText(one).split(' ');
  if (words.length !== left.length || words.length < 2) return false;
  let whole = 0;
  for (const word of [...words].sort((a, b) => b.length - a.length)) {
    const same = left.indexOf(word);
    const at = same >= 0 ? same : left.findIndex((of) => startsOther(word, of));
    if (at < 0) return false;
    if (same >= 0 && word.length > 2) whole++;
    left.splice(at, 1);
  }
  return whole > 0;
}
/** A letter, not a number: 'Test 1' is not 'Test 12'. */
const startsOther = (a: string, b: string): boolean =>
  (/^\p{L}$/u.test(a) && b.startsWith(a)) || (/^\p{L}$/u.test(b) && a.startsWith(b));

/** A name that says no more than another: its words in any order, some left out or as their first letters. */
export function isWithin(less: string, more: string): boolean {
  const words = new Set(foldText(more).split(' '));
  const all = foldText(less).split(' ');
  return all.every((word) => words.has(word)) || isShortOf(less, more);
}

/** Two ways to write one name. */
export const namesAgree = (one: string, other: string): boolean =>
  isWithin(one, other) || isWithin(other, one);

/** 'Lewis Trantor' and 'Lewis Tranter'; of a short name a letter more is another name. */
export const nearlySame = (one: string, other: string): boolean =>
  lettersApart(foldText(one), foldText(other)) <= Math.min(one.length, other.length) / 8;

/** A letter alone. */
export const INITIAL = /(?<!\p{L})\p{L}(?!\p{L})/u;

/** Children by hospital number, by name and birth date, or by name alone where only one child has it. */
export class People {
  private readonly byId = new Map<string, Person>();
  private readonly byName = new Map<string, Person[]>();
  private readonly byBirth = new Map<IsoDate, Person[]>();

  /**
   * The child a row means, made where it is new and the row says who it is. A birth date reckoned from an age is right
   * to so many days only: of the same name, one as near as that is the same child's.
   */
  meet(id: string, name: string, birthDate: IsoDate | null, toDays = 0): Person | null {
    const found = this.find(id, name, birthDate, toDays);
    if (found === 'several') return null;
    if (found) {
      found.birthDate ??= birthDate;
      const known = found.name === '' ? '' : nameKey(found.name);
      if (name.length > found.name.length && nameKey(name) !== known) this.rename(found, name);
      return found;
    }
    if (birthDate === null || (id === '' && name === '')) return null;
    const person = { id: id || contentId('c', nameKey(name), birthDate), name, birthDate };
    this.byId.set(person.id.toLowerCase(), person);
    this.byBirth.set(birthDate, [...(this.byBirth.get(birthDate) ?? []), person]);
    if (name !== '') this.byName.set(nameKey(name), [...(this.byName.get(nameKey(name)) ?? []), person]);
    return person;
  }

  /** The child a row means, among those met. */
  // biome-ignore lint/complexity/noExcessiveCognitiveComplexity: by number, a name in its place, the name: in this order
  find(id: string, name: string, birthDate: IsoDate | null, toDays = 0): Person | 'several' | null {
    if (id !== '') {
      const own = this.byId.get(id.toLowerCase());
      if (own) return own;
      // A sheet's column of numbers may hold names.
      const named = this.byName.get(nameKey(id));
      if (named) return named.length === 1 ? named[0] : 'several';
      if (birthDate !== null) return null;
    }
    const named = (this.byName.get(nameKey(name)) ?? []).filter(
      (p) =>
        birthDate === null ||
        (p.birthDate !== null && Math.abs(daysBetween(p.birthDate, birthDate)) <= toDays),
    );
    if (name !== '' && named.length > 0 && (id === '' || birthDate === null))
      return named.length === 1 ? named[0] : 'several';
    if (name === '') return null;
    return this.byId.get(name.trim().toLowerCase()) ?? (id === '' ? this.shortened(name, birthDate) : null);
  }

  /** Who a shortened name means: of those born that day, or where no birth date is given of all. */
  private shortened(name: string, birthDate: IsoDate | null): Person | 'several' | null {
    const born = birthDate === null && INITIAL.test(name) ? [...this.byBirth.values()].flat() : [];
    const known = birthDate === null ? born : (this.byBirth.get(birthDate) ?? []);
    const [found = null, ...more] = known.filter((person) => isShortOf(name, person.name));
    return more.length > 0 ? 'several' : found;
  }

  private rename(person: Person, name: string): void {
    person.name = name;
    this.byName.set(nameKey(name), [...(this.byName.get(nameKey(name)) ?? []), person]);
  }
}
