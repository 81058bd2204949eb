import type { Action } from '../../recall/contract.js';
import type { Region } from '../../rules/fit-rule.js';
import type { FamilyWords, UrgentReason, WornDevice } from './family-words.js';
import type { Third } from './month-thirds.js';
import { type SignPhrases, signsOf } from './signs.js';

/** What every language says in words of its own. */
type Plain = {
  readonly [K in keyof FamilyWords as FamilyWords[K] extends (...given: never[]) => unknown
    ? never
    : K]: FamilyWords[K];
};
/** What something is put into. */
type Filled = Exclude<
  keyof FamilyWords,
  keyof Plain | 'device' | 'month' | 'wanted' | 'skinEveryDay' | 'signs'
>;

/**
 * A language as plain sentences: {it} is a device, {month} a part of a month, {date} a day, {name} a child, {n} a number
 * (of shoes mm of foot, beside {eu}, {uk} and {us}).
 * Sentences stand after 'device: ', so that no language has to bend the device's name; the names of one language
 * share one grammatical gender for the same reason.
 */
export interface PhraseBook extends Plain, Readonly<Record<Filled, string>> {
  readonly devices: Readonly<Record<Region, string>>;
  readonly sides: { readonly left: string; readonly right: string };
  readonly thirds: Readonly<Record<Third, string>>;
  readonly titleUnnamed: string;
  /** {month}: too small from then on; beside `meaning`, where it still fits then. */
  readonly meaningSmall: string;
  readonly beingMadeBy: string;
  readonly wanted: Readonly<Partial<Record<Action, string>>> & { readonly repairHip: string };
  readonly urgent: Readonly<Record<'head' | 'breathing' | 'hip' | 'stop', string>>;
  readonly skin: Readonly<Record<'hip' | 'head' | 'trunk' | 'hand' | 'leg', string>>;
  readonly signs: SignPhrases;
  /** When the brace is off and it is still hard to breathe. */
  readonly emergencyTrunk: string;
  readonly doNotWaitInsensate: string;
  readonly bringAlone: string;
}

const fill = (text: string, parts: Readonly<Record<string, string | number>>): string =>
  text.replace(/\{(\w+)\}/g, (_, name: string) => String(parts[name]));

const SKIN_OF: Partial<Record<Region, 'hip' | 'head' | 'trunk' | 'hand'>> = {
  hip: 'hip',
  head: 'head',
  trunk: 'trunk',
  'wrist-hand': 'hand',
};
/** Every sentence a family reads, from a language's phrases. */
export function fromPhrases(p: PhraseBook): FamilyWords {
  const monthName = (month: string) => {
    const date = new Date(`${month}-05T00:00:00Z`);
    // Beside a day the month stands in the case that 'the beginning of' wants, too.
    const parts = new Intl.DateTimeFormat(p.language, {
      day: 'numeric',
      month: 'long',
      timeZone: 'UTC',
    }).formatToParts(date);
    return `${parts.find((part) => part.type === 'month')!.value} ${month.slice(0, 4)}`;
  };
  const device = ({ region, side }: WornDevice) => {
    const name = p.devices[region];
    return side === 'left' || side === 'right' ? `${name} (${p.sides[side]})` : name;
  };
  const said = (it: string, text: string) => `${it}: ${text}`;
  const seeNow = ({ region }: WornDevice, why: UrgentReason): string => {
    if (why === 'head' || (region === 'head' && why === 'other')) return p.urgent.head;
    if (why === 'breathing') return p.urgent.breathing;
    return region === 'hip' ? p.urgent.hip : p.urgent.stop;
  };
  return {
    ...p,
    device,
    month: ({ third, month }) => fill(p.thirds[third], { month: monthName(month) }),
    title: (name) => (name ? fill(p.title, { name }) : p.titleUnnamed),
    fitsUntil: (it, month) => said(it, fill(p.fitsUntil, { month })),
    meaning: (stillFits, tooSmall) =>
      [fill(p.meaning, { month: stillFits }), tooSmall ? fill(p.meaningSmall, { month: tooSmall }) : '']
        .filter(Boolean)
        .join(' '),
    mayBeSmall: (it) => said(it, p.mayBeSmall),
    longTime: (it) => said(it, p.longTime),
    byWear: (it) => said(it, p.byWear),
    beingMade: (it, date) => said(it, date ? fill(p.beingMadeBy, { date }) : p.beingMade),
    wanted: (action, worn, why) => {
      if (action === 'see-now') return said(device(worn), seeNow(worn, why));
      const text = action === 'repair' && worn.region === 'hip' ? p.wanted.repairHip : p.wanted[action];
      return text ? said(device(worn), text) : null;
    },
    correctedAge: (weeks) => fill(p.correctedAge, { n: weeks }),
    skinEveryDay: (region) => p.skin[SKIN_OF[region] ?? 'leg'],
    signs: (region, insensate) => signsOf(p.signs, region, insensate),
    emergency: (region) => {
      if (region === 'trunk') return p.emergencyTrunk;
      return region === 'head' ? p.emergency : null;
    },
    doNotWait: (insensate) => (insensate ? p.doNotWaitInsensate : p.doNotWait),
    bring: (inShoes) => (inShoes ? p.bring : p.bringAlone),
    shoes: ({ EU, UK, US, Mondopoint }) => fill(p.shoes, { eu: EU, uk: UK, us: US, n: Number(Mondopoint) }),
    shoesNext: (month) => fill(p.shoesNext, { month }),
    visitBefore: (date) => fill(p.visitBefore, { date }),
    madeOn: (date) => fill(p.madeOn, { date }),
    linkUntil: (date) => fill(p.linkUntil, { date }),
    letterTo: (name) => fill(p.letterTo, { name }),
    letterBy: (date) => fill(p.letterBy, { date }),
  };
}
