import type { Action } from '../../recall/contract.js';
import type { Device } from '../../records/device.js';
import type { ToeRoom } from '../../records/family-answer.js';
import type { ShoeSizes } from '../../records/shoe-size.js';
import type { SkinState } from '../../records/skin-check.js';
import type { NamesByLanguage, Region } from '../../rules/fit-rule.js';
import type { MonthThird } from './month-thirds.js';

/** What decides which words a worn device gets. */
export interface WornDevice {
  readonly names: NamesByLanguage;
  readonly side: Device['side'];
  readonly region: Region;
}

/** Why a device is to be seen now, as far as a family's next step hangs on it. */
export type UrgentReason = 'skin' | 'head' | 'breathing' | 'other';

/** What to look for on one kind of device, and what to do on seeing it. */
export interface Signs {
  readonly title: string;
  readonly signs: readonly string[];
}

/** The two questions a clinic may ask through a family's link. */
export interface FamilyQuestions {
  readonly title: string;
  readonly hint: string;
  readonly toes: string;
  readonly toesAnswers: Readonly<Record<ToeRoom, string>>;
  readonly marks: string;
  /** The same for a hip orthosis, which is never taken off to look. */
  readonly marksHip: string;
  readonly marksAnswers: Readonly<Record<SkinState, string>>;
  readonly where: string;
  readonly minutes: string;
  readonly send: string;
  readonly thanks: string;
  readonly incomplete: string;
}

/** Every sentence a family reads, in one language. Short words: a child of eleven must be able to read it. */
export interface FamilyWords {
  readonly language: string;
  readonly direction: 'ltr' | 'rtl';
  readonly name: string;
  /** Shown until a native reader has signed these words for the clinic. */
  readonly unchecked: string;
  /** 'the left lower leg brace'. */
  readonly device: (device: WornDevice) => string;
  /** 'early March 2027'. */
  readonly month: (third: MonthThird) => string;
  readonly title: (name: string) => string;
  readonly fitsUntil: (device: string, month: string) => string;
  readonly meaning: (stillFits: string, tooSmall: string | null) => string;
  readonly mayBeSmall: (device: string) => string;
  readonly longTime: (device: string) => string;
  readonly byWear: (device: string) => string;
  /** What is wanted of the family, by what the clinic has to do; null where the forecast says it all. */
  readonly wanted: (action: Action, device: WornDevice, why: UrgentReason) => string | null;
  /** The next one is in the workshop; a day about which it is to be fitted, never an appointment. */
  readonly beingMade: (device: string, date: string | null) => string;
  readonly noDevice: string;
  readonly guess: string;
  readonly correctedAge: (weeks: number) => string;
  readonly skinTitle: string;
  readonly skinEveryDay: (region: Region) => string;
  /** Which marks are usual and which are not. */
  readonly marks: string;
  readonly skinInsensate: string;
  readonly signs: (region: Region, insensate: boolean) => Signs;
  /** What is no question of the brace at all. */
  readonly emergency: (region: Region) => string | null;
  readonly doNotWait: (insensate: boolean) => string;
  readonly callUs: string;
  readonly numberOnCard: string;
  readonly visitTitle: string;
  readonly visitBefore: (date: string) => string;
  readonly visitToday: string;
  readonly visitNow: string;
  readonly visitUsual: string;
  /** What to bring; shoes only where the brace is worn in them. */
  readonly bring: (inShoes: boolean) => string;
  /** Which shoes to look for with the brace in them, and when the next are likely. */
  readonly shoes: (sizes: ShoeSizes) => string;
  readonly shoesNext: (month: string) => string;
  readonly chartTitle: string;
  readonly madeOn: (date: string) => string;
  readonly linkUntil: (date: string) => string;
  readonly otherLanguage: string;
  readonly letterTo: (name: string) => string;
  readonly letterBy: (date: string) => string;
  readonly letterSoon: string;
  /** Nothing where the sentence that asks for the call says it all. */
  readonly letterWhy: Readonly<Partial<Record<Action, string>>>;
  readonly questions: FamilyQuestions;
}
