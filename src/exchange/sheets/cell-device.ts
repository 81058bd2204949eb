import { foldText } from '../headings/fold-words.js';
import { spokenWords } from '../headings/read-words.js';
import { remembered } from '../remembered.js';
import { daysAt, daysMarked, type SaidDay, withoutDays } from './cell-device-dates.js';
import { leftWords, rightWords } from './cell-words.js';
import {
  AGAIN,
  hasOwnWord,
  isFootwear,
  QUALIFIERS,
  STOCK,
  saysHow,
  withJoinedNames,
} from './device-names.js';
import {
  type DeviceSide,
  joinSides,
  MENDED,
  SAME_DAYS,
  SHORT_DAY,
  type SpokenDevice,
  spoken,
  UNCHANGED,
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
const saysNone = (name: string): boolean => NONE.has(name.split(' ')[0]);
export const isMended = (name: string): boolean => name.split(' ').some((word) => MENDED.has(word));
/** 'Standing frame', 'Rollstuhl', 'serial casts': no orthosis, whatever stands beside it. */
const EQUIPMENT = [...spokenWords('equipment')];
const isEquipment = (name: string): boolean => EQUIPMENT.some((word) => ` ${name} `.includes(` ${word} `));

interface PassedOver {
  readonly said: string;
  /** Null for words and days that nobody reads. */
  readonly is: 'footwear' | 'work on a device that is worn' | 'no orthosis' | null;
}

/** All that a cell says of devices: those it names, and what none of them is made of. */
interface CellDevices {
  readonly devices: readonly SpokenDevice[];
  /** Footwear, 'KAFO?' beside another, 'plaster x2', days that are of none. */
  readonly passed: readonly PassedOver[];
}

/** A piece of a cell as one device would be, with the days in it. */
interface Piece {
  readonly text: string;
  /** Joined to the one before by 'and' or +, not set beside it. */
  readonly joined: boolean;
  /** Comes after the one before by its words: 'then', 'puis'. */
  readonly next: boolean;
  readonly said: SpokenDevice;
  readonly days: readonly SaidDay[];
  /** Its words without the days, folded. */
  readonly name: string;
  /** What it is instead of a device: 'none' takes the name back, 'busto?' in a list of others is a question. */
  readonly not: PassedOver['is'] | 'none' | 'asked';
}

/** The devices a cell names: 'L solid AFO + R insole' is two, 'bilat hinged AFOs' one on both sides. */
export const cellDevices = (cell: string): readonly SpokenDevice[] => readCell(cell).devices;
/** The pieces and days of a cell that none of its devices is made of. */
export const passedOver = (cell: string): readonly PassedOver[] => readCell(cell).passed;

const readCell = remembered((cell): CellDevices => {
  if (cell.length > LONGEST) {
    const said = cell.slice(0, 60);
    return { devices: [{ ...NOBODY_KNOWS, word: foldText(said), said }], passed: [] };
  }
  const { text, days } = daysMarked(withJoinedNames(cell));
  const pieces = piecesOf(text, days);
  const devices = days.length === 0 && saysNone(foldText(text)) ? [] : devicesOf(text, days, pieces);
  return { devices, passed: passedIn(text, days, pieces, devices) };
});
const LONGEST = 600;

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

function piecesOf(text: string, days: readonly SaidDay[]): Piece[] {
  const [first, ...rest] = text.replace(SENTENCE, '\n ').replace(SIDE_BEHIND, ', ').split(PARTING);
  const parts = [{ text: first, by: '' }];
  for (let at = 0; at < rest.length; at += 2) parts.push({ text: rest[at + 1], by: rest[at] });
  return parts.flatMap(({ text: part, by }) => {
    const own = part.trim();
    if (own === '') return [];
    const joined = JOINS.test(by);
    const said = spoken(own, days);
    const name = foldText(withoutDays(own));
    const piece = { text: own, joined, next: !joined && COMES_NEXT.test(by), said, name };
    return [{ ...piece, days: daysAt(own, days), not: instead(own, said, name, days) }];
  });
}

function instead(text: string, said: SpokenDevice, name: string, days: readonly SaidDay[]): Piece['not'] {
  const { word, family, likely } = said;
  if (saysNone(name)) return 'none';
  if (isMended(name)) return 'work on a device that is worn';
  if (isFootwear(word)) return 'footwear';
  if (isEquipment(name) && (family ?? likely) === null) return 'no orthosis';
  return /\?\s*$/.test(text) && daysAt(text, days).length === 0 && word !== '' ? 'asked' : null;
}

function passedIn(
  text: string,
  days: readonly SaidDay[],
  pieces: readonly Piece[],
  devices: readonly SpokenDevice[],
): PassedOver[] {
  const passed = pieces.flatMap(({ said: { word, said, side, state }, not, days: own }) => {
    const is = not === 'none' || not === 'asked' ? null : not;
    const name = foldText(said);
    const taken =
      devices.some((d) => foldText(d.said).includes(name)) ||
      (word === '' && (side !== null || state !== null || own.length > 0));
    const idle = name === '' || STOCK.has(name) || not === 'none';
    return is !== null || !(taken || idle) ? [{ said, is }] : [];
  });
  const used = new Set(devices.flatMap(({ cast, fitted }) => [cast, fitted]));
  const unused = days.filter(({ written }) => !used.has(written)).map(({ written }) => written);
  const short = devices.length > 0 ? (SHORT_DAY.exec(text) ?? []) : [];
  return [...passed, ...[...unused, ...short].map((said) => ({ said, is: null }))];
}

function devicesOf(text: string, days: readonly SaidDay[], pieces: readonly Piece[]): SpokenDevice[] {
  // 'Weaning, nights only': the one before goes on, and how it is worn.
  const named = pieces.some(({ said }) => (said.family ?? said.likely) !== null && !saysHow(said.word));
  const goesOn = ({ name }: Piece) =>
    UNCHANGED.has(name) || name.split(' ').some((word) => UNCHANGED.has(word));
  if (!named && pieces.some(goesOn)) return [];
  const whole = spoken(text, days);
  if (whole.family !== null && saysOnce(whole, text, days) && !namesSeveral(pieces)) return [whole];
  if (pieces.length < 2) return pieces.some(({ not }) => not !== null && not !== 'asked') ? [] : [whole];
  const inverted = kindBehind(pieces);
  if (inverted !== null) return [inverted];
  const merged = inOneCell(pieces, days);
  const told = merged.some((d) => d.family !== null) || (merged.length > 0 && saysNone(foldText(text)));
  const apart = merged.length > 1 && pieces.slice(1).every(({ next }) => next);
  return told || apart || pieces.every(({ not }) => not !== null) ? merged : [whole];
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
const namesSeveral = (pieces: readonly Piece[]): boolean =>
  aSideEach(pieces) ||
  (pieces.length > 1 &&
    pieces.every(({ said: { family, side, word } }, at) => {
      const another = at === 0 || !sameDevice(word, pieces[0].said.word);
      return family !== null && side !== null && another && !QUALIFIERS.has(word);
    }));

/** 'Right rigid + insole left': words with a side each, not all of them the same; 'AFO L + R hinged' is a pair. */
function aSideEach(pieces: readonly Piece[]): boolean {
  const said = pieces.map((piece) => piece.said);
  const sided = said.every(({ word, side }) => word !== '' && (side === 'left' || side === 'right'));
  const kinds = said.some(({ word }) => word.split(' ').every((one) => QUALIFIERS.has(one)));
  const open = kinds && said.some(({ family }) => family?.includes('|'));
  return pieces.length > 1 && sided && !open && new Set(said.map(({ side }) => side)).size > 1;
}

/** 'AFO, PLS': the kind behind the name, and no second device. */
function kindBehind(pieces: readonly Piece[]): SpokenDevice | null {
  if (pieces.length !== 2 || pieces[1].joined || pieces[0].days.length > 0) return null;
  const [name, kind] = pieces.map(({ said }) => said);
  const open = name.family?.includes('|') && name.family.split('|').includes(kind.family ?? '');
  if (!open || kind.word.includes(' ') || (name.side !== null && kind.side !== null)) return null;
  return { ...kind, side: name.side ?? kind.side, plural: name.plural || kind.plural };
}

type Joined = SpokenDevice & Pick<Piece, 'joined'>;

/**
 * The devices of a cell in pieces. A piece that is only a side, a day or a state belongs to the device before it, a day
 * also to those joined to that; a day of a kind the device has already is of the next of the same.
 */
function inOneCell(pieces: readonly Piece[], days: readonly SaidDay[]): SpokenDevice[] {
  const merged: Joined[] = [];
  let waiting: DeviceSide | null = null;
  const named = pieces.filter(({ not }) => not === null);
  const sure = named.some(({ said }) => said.family !== null);
  for (const piece of named.filter((one) => !sure || saysDevice(one))) {
    const device = piece.said;
    // 'Fitted 1 Aug (funding delay)' goes on with the device before it.
    const goesOn = sure && merged.length > 0 && !namesDevice(piece);
    // 'Nights from Jul 25' is how it is worn.
    if (goesOn && device.word.split(' ').some((word) => QUALIFIERS.has(word))) continue;
    if (device.word !== '' && !goesOn) {
      const side = joinSides(waiting, device.side);
      const after = piece.next && merged.length > 0;
      merged.push(ofItsOwn({ ...device, joined: piece.joined, side, after }, merged.at(-1), piece));
      waiting = null;
    } else if (merged.length > 0) saidOfLast(merged, piece);
    else waiting = joinSides(waiting, device.side);
  }
  return forEvery(
    merged.map(({ joined: _, ...device }) => device),
    days,
  );
}

/** 'Dad happy', '(funding delay)' beside a device are words; 'inlay right' has a side and may be another. */
function saysDevice(piece: Piece): boolean {
  const { word, cast, fitted, state, stage } = piece.said;
  return word === '' || (cast ?? fitted ?? state ?? stage) !== null || namesDevice(piece);
}
const namesDevice = ({ text, said: { family, likely, side } }: Piece): boolean =>
  (family ?? likely ?? side) !== null || hasOwnWord(text);

/** A device with its own days, or with those of the one before where it says that they are the same. */
function ofItsOwn(device: Joined, before: Joined | undefined, { name }: Piece): Joined {
  const undated = device.cast === null && device.fitted === null;
  return before && undated && SAME_DAYS.test(name)
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
function saidOfLast(merged: Joined[], { said: device, days }: Piece): void {
  const last = merged.length - 1;
  const before = merged[last];
  const { side, state } = device;
  const { cast, fitted } = daysOf(device, before, days);
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
  const isDated = ({ cast, fitted }: SpokenDevice) => (cast ?? fitted) !== null;
  const { cast = null, fitted = null } = devices.find(isDated) ?? {};
  return devices.map((d) => (isDated(d) ? d : { ...d, cast, fitted }));
}
