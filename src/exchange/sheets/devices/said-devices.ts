import type { IsoDate } from '../../../records/dates.js';
import { foldText } from '../../headings/fold-words.js';
import { isField } from '../../headings/meaning.js';
import { headingDate } from '../../headings/written-date.js';
import { isDay } from '../cell-date.js';
import { cellDevices, isMended, passedOver } from '../cell-device.js';
import { stageSaid } from '../cell-device-dates.js';
import { noWords, saysNothing, sideIn, yesWords } from '../cell-words.js';
import { type Column, cellOf } from '../column.js';
import { openNameIn } from '../device-names.js';
import type { GridRow } from '../grid.js';
import { sideBeside } from '../row-side.js';
import { fieldColumns } from '../sheet-rows.js';
import { type DeviceSide, type SpokenDevice, takesBack } from '../spoken-device.js';
import type { TakenTable } from '../taken-table.js';
import { deviceOfSheet } from './device-family.js';
import type { Mention } from './device-register.js';
import { ofDevice } from './device-sheet.js';
import { remarkedDevices } from './remarked-devices.js';

/** A device a row names, its family and sides settled. */
export interface Found {
  readonly device: SpokenDevice;
  readonly family: string;
  readonly sides: readonly ('left' | 'right' | 'both' | 'none')[];
  readonly column: Column;
}

const HIGH = /\d\s*(?:mm|cm|in|inch|inches|")(?!\p{L})/iu;
const NOTHING_SAID = {
  likely: null,
  cast: null,
  fitted: null,
  fresh: false,
  said: '',
  state: null,
  stage: null,
} as const;
/** 'Insoles given': more than one by its heading. */
const severalUnder = ({ heading }: Column): boolean => cellDevices(heading).some(({ plural }) => plural);

/** The devices one cell of a row speaks of, by what its column holds. */
export function saidIn(
  taken: TakenTable,
  { row, visit }: Pick<Mention, 'row' | 'visit'>,
  column: Column,
  text: string,
  before: readonly Found[],
): readonly SpokenDevice[] {
  const { meaning } = column;
  if (meaning?.kind === 'device') return underDevice(taken, row, column, meaning, text, visit);
  if (isField(meaning, 'device.family')) return underDevices(taken, row, column, text);
  if (meaning?.kind === 'remark' || meaning?.kind === 'keep') return remarkedDevices(taken, row, column);
  const named = taken.columns.some(
    (c) => c.meaning?.kind === 'device' || isField(c.meaning, 'device.family'),
  );
  return named ? [] : byHeading(taken, row, column, text, before);
}

/** Where no column names devices the heading of a day or side does, 'AFO left - cast'; 'Brace given' alone says when and not which. */
export function byHeading(
  taken: TakenTable,
  row: GridRow,
  column: Column,
  text: string,
  before: readonly Found[],
): readonly SpokenDevice[] {
  const ofSide = isSideOfDevice(column);
  if (!ofSide && (!isStage(column) || noWords.has(foldText(text)))) return [];
  const { meaning } = column;
  const side = ofSide ? sideIn(text) : meaning.side;
  if (ofSide && side === null) return [];
  const headed = meaning.family;
  if (headed === null && taken.columns.some((c) => isSideOfDevice(c) || isDatedDevice(c))) return [];
  const family = headed ?? deviceOfSheet(taken, row, column);
  const again = ({ device, family: of }: Found) =>
    headed === null ? of === family : device.family === family && device.side === side;
  if (family === null || (!ofSide && before.some(again))) return [];
  const word = (headed === null ? null : openNameIn(column.heading)) ?? foldText(family);
  return [{ ...NOTHING_SAID, family, side, plural: !ofSide && severalUnder(column), word }];
}

/** Devices a cell names, each with the side that it or its column says, else that stands beside it. */
function underDevices(
  taken: TakenTable,
  row: GridRow,
  column: Column,
  text: string,
): readonly SpokenDevice[] {
  const headed = (column.meaning as Field).side;
  for (const { said, is } of passedOver(text)) {
    if (is === null) taken.left.add(row, column, 'words', said);
    else {
      taken.left.mark(row, column);
      taken.left.tell(row, column, said);
      taken.tell(`"${said}" under "${column.heading}" is ${is}: no device is made of it.`);
    }
  }
  const devices = devicesUnder([column, ...taken.columns.filter(isDatedDevice)], text);
  const each = sidesOfEach(taken, row, column, devices);
  return withDaysOfLast(taken, row, column, devices).map((device, at) => ({
    ...device,
    side:
      device.side ??
      headed ??
      each?.[at] ??
      sideBesideOf(taken, row, column, device) ??
      sideOfDates(taken, row, device.family),
  }));
}

/** 're / li' beside 'AFO / insole': so many sides as devices, parted by the same mark, are one of each in their order. */
function sidesOfEach(
  taken: TakenTable,
  row: GridRow,
  column: Column,
  devices: readonly SpokenDevice[],
): readonly DeviceSide[] | null {
  const text = cellOf(row, column);
  if (devices.length < 2 || devices.some(({ side }) => side !== null)) return null;
  for (const beside of ofDevice(taken, fieldColumns(taken.columns, 'side'), column)) {
    const said = cellOf(row, beside);
    const mark = /[/;,]/.exec(said)?.[0];
    const sides = mark === undefined ? [] : said.split(mark).map(sideIn);
    if (mark === undefined || sides.length !== devices.length || sides.includes(null)) continue;
    if (text.split(mark).length !== devices.length) continue;
    taken.tell(`"${said}" beside "${text}" is taken as a side of each, in their order.`);
    return sides as DeviceSide[];
  }
  return null;
}

/** What stands beside a device; of 'night splints' in a line a side of sizes, more than one, that is the size's. */
const sideBesideOf = (taken: TakenTable, row: GridRow, column: Column, { plural }: SpokenDevice) =>
  plural && taken.columns.some(({ meaning }) => meaning?.kind === 'reading' && meaning.side === 'row')
    ? null
    : sideBeside(taken, row, ofDevice(taken, fieldColumns(taken.columns, 'side'), column));

/** 'R AFO + L insole cast 20/2/24': days behind the last of several devices may be of all, asked once a column. */
function withDaysOfLast(
  taken: TakenTable,
  row: GridRow,
  column: Column,
  devices: readonly SpokenDevice[],
): readonly SpokenDevice[] {
  const last = devices.at(-1);
  const dated = (device: SpokenDevice) => (device.cast ?? device.fitted) !== null;
  if (last === undefined || devices.length < 2 || !dated(last)) return devices;
  if (devices.slice(0, -1).some((device) => dated(device) || device.state !== null)) return devices;
  // Beside columns of days the others have those.
  if (taken.columns.some((other) => isStage(other) && !saysNothing(cellOf(row, other)))) return devices;
  const answer = taken.ask({
    id: `days:${foldText(column.heading)}`,
    asks: `Under "${column.heading}" days stand behind the last of several devices, such as "${cellOf(row, column).slice(0, 80)}". Are they of all of them?`,
    examples: [cellOf(row, column)],
    suggested: 'yes',
    at: [row, column],
  });
  const { cast, fitted } = last;
  return answer === 'yes' ? devices.map((device) => ({ ...device, cast, fitted })) : devices;
}

/** '12/03/2024' or '03/2024' alone, under 'AFO cast' or beside a side. */
const dayIn = (text: string): string | null => (isDay(text) ? text : headingDate(text));

/** What stands under a device's own heading: a side, a yes, days, or words that say one is worn; others are told. */
function underDevice(
  taken: TakenTable,
  row: GridRow,
  column: Column,
  { family, side: headed }: Extract<Column['meaning'], { kind: 'device' }>,
  text: string,
  visit: IsoDate | null,
): readonly SpokenDevice[] {
  const word = foldText(text);
  if (noWords.has(word)) return [];
  const one = {
    ...NOTHING_SAID,
    family,
    side: headed,
    plural: severalUnder(column),
    word: foldText(column.heading),
  };
  const yes = yesWords.has(word);
  const side = headed ?? (yes ? null : sideIn(text));
  if (side !== null || yes || !/\p{L}{3}/u.test(text)) return [{ ...one, side, cast: dayIn(text) }];
  // 'Scan 17/12/24 helmet fitted 07/01/25', 'helmet on', under 'Helmet'.
  const [name] = family.split('|');
  const named = cellDevices(`${name}, ${text.replace(/\([^()\d]*\)|\(\d?\p{L}[^()]*\)/gu, ' ')}`);
  const dated = named.filter(
    (d, at) => (at === 0 || d.family !== null || d.likely === name) && (d.cast ?? d.fitted ?? d.state),
  );
  if (dated.length > 0)
    return dated.map((d) => ({
      ...d,
      side: headed ?? d.side,
      family: d.family === null || d.family === named[0].family ? family : d.family,
    }));
  // '12 mm L outsole' under 'Raise': the cell says how high and under which foot.
  const under = named.find((d) => d.side !== null)?.side;
  if (family === 'shoe-raise' && HIGH.test(text) && !takesBack(text) && under)
    return [{ ...one, side: under }];
  const stage = takesBack(text) ? null : stageSaid(text);
  if (stage !== null && visit !== null) return [{ ...one, [stage]: visit }];
  if (!takesBack(text) && cellDevices(text).some((d) => d.family !== null)) return [one];
  if (isMended(word)) {
    taken.left.add(row, column, 'words', text);
    taken.left.mark(row, column);
    return [];
  }
  taken.refuse(row, column, 'does not say whether there is one', 'a date, a side, yes or no');
  return [];
}

/** 'AFO type' over 'rigid both', 'Type' beside 'AFO L cast': a heading names what the cell tells more of. */
function devicesUnder(under: readonly Column[], text: string): readonly SpokenDevice[] {
  const devices = cellDevices(text);
  const unclear = devices.some(({ family }) => family === null);
  const open =
    unclear || devices.every((d) => d.word === foldText(text) && !text.includes(' '))
      ? (under.map(({ heading }) => openNameIn(heading)).find((name) => name !== null) ?? null)
      : null;
  const together = open === null ? [] : cellDevices(`${open} ${text}`);
  return together.length > 0 && together.every((d) => d.family !== null && !d.family.includes('|'))
    ? together
    : devices;
}

/** 'Cast L' and 'Cast R': the device is for the side whose date is filled. */
function sideOfDates(taken: TakenTable, row: GridRow, family: string | null): DeviceSide | null {
  const dated = taken.columns
    .filter(isStage)
    .filter(
      ({ meaning }) =>
        meaning.family === null || meaning.family.split('|').some((of) => family?.split('|').includes(of)),
    );
  const filled = new Set(
    dated
      .filter((c) => !saysNothing(cellOf(row, c)) && !noWords.has(foldText(cellOf(row, c))))
      .map((c) => c.meaning.side),
  );
  if (filled.has('left')) return filled.has('right') ? 'both' : 'left';
  return filled.has('right') ? 'right' : null;
}

type Field = Extract<Column['meaning'], { kind: 'field' }>;
/** A column of the days of a stage: the cast, the fitting. */
const isStage = (column: Column): column is Column & { meaning: Field } =>
  column.meaning?.kind === 'field' &&
  (column.meaning.field === 'device.cast_date' || column.meaning.field === 'device.fitted_date');
/** 'AFO side'. */
const isSideOfDevice = (column: Column): column is Column & { meaning: Field & { family: string } } =>
  column.meaning?.kind === 'field' && column.meaning.field === 'side' && column.meaning.family !== null;
export const isDatedDevice = (column: Column): boolean => isStage(column) && column.meaning.family !== null;
