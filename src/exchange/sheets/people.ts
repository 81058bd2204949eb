import { daysBetween, type IsoDate } from '../../records/dates.js';
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

/** Children by hospital number, by name and birth date, or by name alone where only one child has it. */
export class People {
  private readonly byId = new Map<string, Person>();
  private readonly byName = new Map<string, Person[]>();

  /**
   * The child a row means, made where it is new and the row says who it is. A birth date reckoned from an age is right
   * to so many days only: of the same name, one as near as that is the same child's.
   */
  meet(id: string, name: string, birthDate: IsoDate | null, toDays = 0): Person | null {
    const found = this.find(id, name, birthDate, toDays);
    if (found === 'several') return null;
    if (found) {
      found.birthDate ??= birthDate;
      if (found.name === '' && name !== '') this.rename(found, name);
      return found;
    }
    if (birthDate === null || (id === '' && name === '')) return null;
    const person = { id: id || contentId('c', nameKey(name), birthDate), name, birthDate };
    this.byId.set(person.id.toLowerCase(), person);
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
    return name === '' ? null : (this.byId.get(name.trim().toLowerCase()) ?? null);
  }

  private rename(person: Person, name: string): void {
    person.name = name;
    this.byName.set(nameKey(name), [...(this.byName.get(nameKey(name)) ?? []), person]);
  }
}
