import { addDaysIso, DAYS_A_YEAR, type IsoDate } from '../records/dates.js';
import type { Child } from '../records/records.js';
import type { Chance } from './chance.js';
import type { Pattern } from './scenario.js';

/** A child of an earlier draw whom this one is a twin or sibling of. */
export interface Relative {
  readonly child: Child;
  readonly twin: boolean;
}

const LANGUAGES = ['en', 'en', 'en', 'en', 'en', 'en', 'es', 'ar', 'tr'];

/** One invented child of a pattern. `number` makes the id: 'C017'. */
export function inventChild(
  number: number,
  pattern: Pattern,
  relative: Relative | null,
  today: IsoDate,
  c: Chance,
): Child {
  const id = `C${String(number).padStart(3, '0')}`;
  const ageYears = c.between(...pattern.ages);
  const birthDate = relative?.twin
    ? relative.child.birthDate
    : addDaysIso(today, -Math.round(ageYears * DAYS_A_YEAR));
  const surname = relative ? (relative.child.name.split(' ').at(-1) as string) : inventedSurname(c);
  const affected = pattern.affectedSide ?? 'none';
  return {
    id,
    name: `${inventedGivenName(c)} ${surname}`,
    birthDate,
    sex: inventedSex(pattern, c),
    gestationWeeks: relative?.twin ? relative.child.gestationWeeks : weeksAtBirth(pattern, c),
    conditions: [pattern.condition],
    affectedSide: affected === 'one' ? c.oneOf(['left', 'right'] as const) : affected,
    insensateSkin: pattern.insensateSkin ?? false,
    latexAlert: pattern.latexAlert ?? c.happens(0.01),
    palliative: c.happens(pattern.palliative ?? 0),
    walks: (pattern.walks ?? true) && ageYears > 1.2,
    siblingGroup: relative ? (relative.child.siblingGroup ?? `family of ${relative.child.id}`) : null,
    transportDays: c.happens(0.08) ? [c.oneOf([1, 2, 3]), c.oneOf([4, 5])] : [],
    prefersHolidays: c.happens(0.15),
    clinician: '',
    contact: inventedContact(c, surname),
    language: c.oneOf(LANGUAGES),
    status: statusNow(c),
    extra: {},
  };
}

function inventedSex({ girls }: Pattern, c: Chance): Child['sex'] {
  if (c.happens(0.01)) return 'unknown';
  return c.happens(girls ?? 0.47) ? 'female' : 'male';
}

function weeksAtBirth({ condition }: Pattern, c: Chance): number | null {
  if (c.happens(condition === 'cerebral-palsy' ? 0.4 : 0.08)) return c.whole(26, 36);
  return c.happens(0.6) ? c.whole(37, 41) : null;
}

function statusNow(c: Chance): Child['status'] {
  if (c.happens(0.02)) return 'moved-away';
  if (c.happens(0.015)) return 'discharged';
  return c.happens(0.004) ? 'died' : 'active';
}

/** Syllables of no language: nobody is called this. */
const FIRST = 'Tu Or Fen Ka Mi Zo Bel Ni Sa Qui Ur Lo Ve Hal Yo Wi'.split(' ');
const MIDDLE = 'li ru da mo ssa pe zi na vo ke'.split(' ');
const LAST = 'n ko bel x ri m sha lo qua ff'.split(' ');
const HOUSE = 'Moss Tin Lantern Puddle Ember Thimble Cloud Button Gravel Feather'.split(' ');
const HOLD = 'whistle acre snap kettle brook latch wick hollow tumble sprig'.split(' ');

const inventedGivenName = (c: Chance): string => c.oneOf(FIRST) + c.oneOf(MIDDLE) + c.oneOf(LAST);
const inventedSurname = (c: Chance): string => c.oneOf(HOUSE) + c.oneOf(HOLD);
/** From a range that the United Kingdom's regulator keeps for films and books, so that nobody is rung (from memory). */
function inventedContact(c: Chance, surname: string): string {
  const carer = `Carer ${inventedGivenName(c)} ${surname}`;
  const ending = c.whole(100, 999);
  return `${carer}, telephone ${c.happens(0.5) ? '07700 900' : '01632 960'}${ending}`;
}
