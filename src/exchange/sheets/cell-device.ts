import { foldText } from '../headings/fold-words.js';
import { spokenWords } from '../headings/read-words.js';
import { remembered } from '../remembered.js';
import { daysAt, daysMarked, type SaidDay, withoutDays } from './cell-device-dates.js';
import { leftWords, rightWords } from './cell-words.js';
import {
  AGAIN,
  type DeviceSide,
  FOOTWEAR,
  hasOwnWord,
  joinSides,
  MENDED,
  QUALIFIERS,
  SAME_DAYS,
  SHORT_DAY,
  type SpokenDevice,
  STOCK,
  spoken,
  withJoinedNames,
} from './spoken-device.js';

const NOBODY_KNOWS = {
  family: null,
  likely: null,
  side: null,
  plural: false,
  cast: null,
  fitted: null,
  fresh: false,
  state: null,
  stage: null,
};
/** 'No insole', 'kein Korsett': the first word takes the name back. */
const NONE = spokenWords('none');

/** The devices a cell names: 'L solid AFO + R insole' is two, 'bilat hinged AFOs' one on both sides. */
export const cellDevices = remembered((cell): readonly SpokenDevice[] => devicesOf(cell));

interface PassedOver {
  readonly said: string;
  /** Null for words and days that nobody reads. */
  readonly is: 'footwear' | 'work on a device that is worn' | null;
}

/**
 * The pieces of a cell that none of its devices is made of: footwear, 'KAFO?' beside another, 'plaster x2', and days that
 * are of none.
 */
export function passedOver(cell: string): PassedOver[] {
  const { text, days } = daysMarked(withJoinedNames(cell));
  const found = cellDevices(cell);
  const pieces = piecesOf(text).flatMap((piece) => {
    const { word, said, side, state } = spoken(piece.text, days);
    const name = foldText(said);
    const work = isMended(name) ? ('work on a device that is worn' as const) : null;
    const is = FOOTWEAR.has(word) ? ('footwear' as const) : work;
    const taken =
      found.some((d) => foldText(d.said).includes(name)) ||
      (word === '' && (side !== null || state !== null || daysAt(piece.text, days).length > 0));
    const idle = name === '' || STOCK.has(name) || NONE.has(name.split(' ')[0]);
    return is !== null || !(taken || idle) ? [{ said, is }] : [];
  });
  const used = new Set(found.flatMap(({ cast, fitted }) => [cast, fitted]));
  const unused = days.filter(({ written }) => !used.has(written)).map(({ written }) => written);
  const short = found.length > 0 ? (SHORT_DAY.exec(text) ?? []) : [];
  return [...pieces, ...[...unused, ...short].map((said) => ({ said, is: null }))];
}

export const isMended = (name: string): boolean => name.split(' ').some((word) => MENDED.has(word));

interface Piece {
  readonly text: string;
  /** Joined to the one before by 'and' or +, not set beside it. */
  readonly joined: boolean;
  /** Comes after the one before by its words: 'then', 'puis'. */
  readonly next: boolean;
}

const PARTING =
  /((?:\s*[,;]\s*|\s)(?:puis|then|later|dann|danach|luego|despu[eé]s|daarna|later|poi)\s|[+,;\n&]|(?<!\d)\/|\/(?!\d)|\s(?:and|und|et|y|e|en|plus)\s)/i;
const JOINS = /^(?:[+&/]|\s(?:and|und|et|y|e|en|plus)\s)$/i;
const COMES_NEXT = /\p{L}{3}/u;
/** A sentence ends there; 'Dyn. Fußorthese' and 'bil. Klett' are shortened words. */
const SENTENCE = /(?<=\p{L}{5}|[\ue000-\uf8ff)])\.\s+(?=\p{Lu})/gu;

/** 'L 12/1/26 R 19/1/26': a side behind a day begins the next piece. */
const SIDE_BEHIND = new RegExp(
  String.raw`(?<=[\ue000-\uf8ff])\s+(?=(?:${[...leftWords, ...rightWords].filter((word) => /^\p{L}+$/u.test(word)).join('|')})\.?\s)`,
  'giu',
);

/** The pieces of a cell. */
function piecesOf(text: string): Piece[] {
  const [first, ...rest] = text.replace(SENTENCE, '; ').replace(SIDE_BEHIND, ', ').split(PARTING);
  const pieces: Piece[] = [{ text: first, joined: false, next: false }];
  for (let at = 0; at < rest.length; at += 2) {
    const joined = JOINS.test(rest[at]);
    pieces.push({ text: rest[at + 1], joined, next: !joined && COMES_NEXT.test(rest[at]) });
  }
  return pieces.flatMap((piece) => (piece.text.trim() === '' ? [] : [{ ...piece, text: piece.text.trim() }]));
}

function devicesOf(cell: string): SpokenDevice[] {
  if (cell.length > 400)
    return [{ ...NOBODY_KNOWS, word: foldText(cell.slice(0, 60)), said: cell.slice(0, 60) }];
  const { text, days } = daysMarked(withJoinedNames(cell));
  if (days.length === 0 && NONE.has(foldText(text).split(' ')[0])) return [];
  const whole = spoken(text, days);
  const pieces = piecesOf(text);
  const several = namesSeveral(pieces, days);
  if (whole.family !== null && saysOnce(whole, text, days) && !several) return [whole];
  if (pieces.length < 2) return FOOTWEAR.has(whole.word) || isMended(foldText(whole.said)) ? [] : [whole];
  const inverted = kindBehind(pieces, days);
  if (inverted !== null) return [inverted];
  const merged = inOneCell(pieces, days);
  const told =
    merged.some((d) => d.family !== null) || (merged.length > 0 && NONE.has(foldText(text).split(' ')[0]));
  const apart = merged.length > 1 && pieces.slice(1).every(({ next }) => next);
  return told || apart || pieces.every((piece) => namesNone(piece, days)) ? merged : [whole];
}

/** Neither a second day of a kind nor a word for one more of the same. */
function saysOnce({ state }: SpokenDevice, text: string, days: readonly SaidDay[]): boolean {
  const once = (['cast', 'fitted'] as const).every((is) => days.filter((day) => day.is === is).length < 2);
  const words = foldText(text).split(' ');
  const again =
    (days.length > 0 && state !== null) || (days.length > 1 && words.some((word) => AGAIN.has(word)));
  return once && !again;
}

/** 'AFO' and 'hinged AFOs' can be one device, 'AFO' and 'night splint' not: they have no word in common. */
export function sameDevice(a: string, b: string): boolean {
  const words = (text: string) => text.split(' ').map((word) => word.replace(/s$/, ''));
  return words(a).some((word) => words(b).includes(word));
}

/** 'AFOs both + night splint R': every piece is another device with a side of its own. */
const namesSeveral = (pieces: readonly Piece[], days: readonly SaidDay[]): boolean =>
  aSideEach(pieces, days) ||
  (pieces.length > 1 &&
    pieces.every(({ text }, at) => {
      const { family, side, word } = spoken(text, days);
      const another = at === 0 || !sameDevice(word, spoken(pieces[0].text, days).word);
      return family !== null && side !== null && another && !QUALIFIERS.has(word);
    }));

/** 'Right rigid + insole left': words with a side each, not all of them the same; 'AFO L + R hinged' is a pair. */
function aSideEach(pieces: readonly Piece[], days: readonly SaidDay[]): boolean {
  const said = pieces.map(({ text }) => spoken(text, days));
  const sided = said.every(({ word, side }) => word !== '' && (side === 'left' || side === 'right'));
  const kinds = said.some(({ word }) => word.split(' ').every((one) => QUALIFIERS.has(one)));
  const open = kinds && said.some(({ family }) => family?.includes('|'));
  return pieces.length > 1 && sided && !open && new Set(said.map(({ side }) => side)).size > 1;
}

/** 'AFO, PLS': the kind behind the name, and no second device. */
function kindBehind(pieces: readonly Piece[], days: readonly SaidDay[]): SpokenDevice | null {
  if (pieces.length !== 2 || pieces[1].joined || daysAt(pieces[0].text, days).length > 0) return null;
  const [name, kind] = pieces.map((piece) => spoken(piece.text, days));
  const open = name.family?.includes('|') && name.family.split('|').includes(kind.family ?? '');
  if (!open || kind.word.includes(' ') || (name.side !== null && kind.side !== null)) return null;
  return { ...kind, side: name.side ?? kind.side, plural: name.plural || kind.plural };
}

/**
 * The devices of a cell in pieces. A piece that is only a side, a day or a state belongs to the device before it, a day
 * also to those joined to that; a day of a kind the device has already is of the next of the same.
 */
function inOneCell(pieces: readonly Piece[], days: readonly SaidDay[]): SpokenDevice[] {
  const merged: Joined[] = [];
  let waiting: DeviceSide | null = null;
  const named = pieces.filter((of) => !namesNone(of, days));
  const sure = named.some(({ text }) => spoken(text, days).family !== null);
  for (const piece of named.filter(({ text }) => !sure || saysDevice(text, days))) {
    const device = spoken(piece.text, days);
    // 'Fitted 1 Aug (funding delay)' goes on with the device before it.
    const goesOn = sure && merged.length > 0 && !namesDevice(piece.text, device);
    // 'Nights from Jul 25' is how it is worn.
    if (goesOn && device.word.split(' ').some((word) => QUALIFIERS.has(word))) continue;
    if (device.word !== '' && !goesOn) {
      merged.push(
        ofItsOwn(
          {
            ...device,
            joined: piece.joined,
            side: joinSides(waiting, device.side),
            after: piece.next && merged.length > 0,
          },
          merged.at(-1),
          piece,
        ),
      );
      waiting = null;
    } else if (merged.length > 0) saidOfLast(merged, device, daysAt(piece.text, days));
    else waiting = joinSides(waiting, device.side);
  }
  return forEvery(
    merged.map(({ joined: _, ...device }) => device),
    days,
  );
}

type Joined = SpokenDevice & Pick<Piece, 'joined'>;

/** 'Dad happy', '(funding delay)' beside a device are words; 'inlay right' has a side and may be another. */
function saysDevice(text: string, days: readonly SaidDay[]): boolean {
  const device = spoken(text, days);
  const { word, cast, fitted, state, stage } = device;
  return word === '' || (cast ?? fitted ?? state ?? stage) !== null || namesDevice(text, device);
}
const namesDevice = (text: string, { family, likely, side }: SpokenDevice): boolean =>
  (family ?? likely ?? side) !== null || hasOwnWord(text);

/** 'No insole', shoes; 'busto?' in a list of others is a question. */
function namesNone({ text }: Piece, days: readonly SaidDay[]): boolean {
  const asked = /\?\s*$/.test(text) && daysAt(text, days).length === 0;
  const { word } = spoken(text, days);
  const name = foldText(withoutDays(text));
  return NONE.has(name.split(' ')[0]) || isMended(name) || FOOTWEAR.has(word) || (asked && word !== '');
}

/** A device with its own days, or with those of the one before where it says that they are the same. */
function ofItsOwn(device: Joined, before: Joined | undefined, { text }: Piece): Joined {
  const undated = device.cast === null && device.fitted === null;
  return before && undated && SAME_DAYS.test(foldText(withoutDays(text)))
    ? { ...device, cast: before.cast, fitted: before.fitted }
    : device;
}

/** 'Replaced 12/11/25' behind a fitting is the next one's fitting; 'stopped Mar 26' is the end and neither. */
function daysOf({ cast, fitted, state }: SpokenDevice, before: Joined, own: readonly SaidDay[]) {
  if (state === 'retired') return { cast: null, fitted: null };
  const next = before.cast === null && before.fitted !== null && own.some((day) => !day.told);
  return next ? { cast: null, fitted: cast } : { cast, fitted };
}

/** A side, days or a state on their own, said of the last device and, days and state, of those it is joined to. */
function saidOfLast(merged: Joined[], device: SpokenDevice, own: readonly SaidDay[]): void {
  const last = merged.length - 1;
  const before = merged[last];
  const { side, state } = device;
  const { cast, fitted } = daysOf(device, before, own);
  if (isAnother(before, cast, fitted)) {
    // 'R solid + L hinged AFO ... Both remade': each of them once more.
    const first = side === 'both' ? merged.findLastIndex((d) => !d.joined) : last;
    const anew = merged.slice(first).map((d) => ({ ...d, cast, fitted, state }));
    merged.push(
      ...(anew.length > 1 ? anew : [{ ...anew[0], side: side ?? before.side }]).map((d, at) => ({
        ...d,
        joined: at > 0,
      })),
    );
    return;
  }
  merged[last] = { ...before, side: joinSides(before.side, side) };
  for (let at = last; at >= 0 && (at === last || merged[at + 1].joined); at--)
    merged[at] = {
      ...merged[at],
      cast: merged[at].cast ?? cast,
      fitted: merged[at].fitted ?? fitted,
      state: merged[at].state ?? state,
    };
}

/** A day of a kind the device has already, or behind its end, is one more of the same: 'too small, new pair cast 8/7/25'. */
const isAnother = ({ state, ...before }: SpokenDevice, cast: string | null, fitted: string | null): boolean =>
  (state === 'retired' && (cast ?? fitted) !== null) ||
  (cast !== null && before.cast !== null) ||
  (fitted !== null && before.fitted !== null);

/** 'Both cast 17/4/25': the days that are of every device of the cell; of one alone, of both its sides. */
function forEvery(devices: readonly SpokenDevice[], days: readonly SaidDay[]): SpokenDevice[] {
  if (!days.some((day) => day.every)) return [...devices];
  if (devices.length === 1) return devices.map((d) => ({ ...d, side: d.side ?? 'both' }));
  const dated = devices.find((d) => d.cast !== null || d.fitted !== null);
  return devices.map((d) => ({
    ...d,
    cast: d.cast ?? dated?.cast ?? null,
    fitted: d.fitted ?? dated?.fitted ?? null,
  }));
}
