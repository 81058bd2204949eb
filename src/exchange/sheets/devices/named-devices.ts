import type { FamilyRule } from '../../../rules/fit-rule.js';
import { familyNamed } from '../../csv/read-devices.js';
import { foldText } from '../../headings/fold-words.js';
import { isField } from '../../headings/meaning.js';
import { wordSet } from '../../headings/phrase-table.js';
import { choices } from '../answer-choices.js';
import { withYearOf } from '../cell-device-dates.js';
import { saysNothing } from '../cell-words.js';
import { sharedOrder } from '../choose-dates.js';
import { type Column, cellOf } from '../column.js';
import type { GridRow } from '../grid.js';
import type { SpokenDevice } from '../spoken-device.js';
import type { TakenTable } from '../taken-table.js';
import { familyOf, wornMeant } from './device-family.js';
import type { DeviceRegister, Mention } from './device-register.js';
import { markDaysOf } from './device-sheet.js';

import { byHeading, type Found, isDatedDevice, saidIn } from './said-devices.js';

/** 'as before': the device goes on, and this line says nothing new of it. */
const sameWords = wordSet((v) => v.unchanged);
/** The devices of a row, by the columns that name them. */
export function devicesIn(taken: TakenTable, mention: Mention, register: DeviceRegister): Found[] {
  const { row } = mention;
  const found: Found[] = [];
  for (const column of taken.columns) {
    const text = datedText(taken, mention, column);
    if (text === '' || saysNothing(text)) continue;
    if (sameWords.has(foldText(text))) {
      taken.left.mark(row, column);
      continue;
    }
    for (const device of saidIn(taken, mention, column, text, found))
      found.push(...settled(taken, mention, column, device, register));
  }
  return found;
}

/** A device's cell, its days without a year in the year of the visit, which is told. */
function datedText(taken: TakenTable, { row, visit }: Mention, column: Column): string {
  const text = cellOf(row, column);
  const ofDevice = isField(column.meaning, 'device.family') || column.meaning?.kind === 'device';
  if (visit === null || !ofDevice) return text;
  const order = taken.orders.get(column.index) ?? sharedOrder(taken.orders);
  const dated = withYearOf(text, visit, order);
  if (dated !== text)
    taken.tell(
      `days without a year under "${column.heading}" are read in the year nearest to their visit: "${text}" is "${dated}".`,
    );
  return dated;
}

/** Days under a heading with a device of its own, 'Harness on' beside 'Brace', that none of the row's named devices is of. */
export function devicesByDay(taken: TakenTable, mention: Mention, register: DeviceRegister): Found[] {
  const found: Found[] = [];
  for (const column of taken.columns.filter(isDatedDevice)) {
    const text = cellOf(mention.row, column);
    if (text === '' || saysNothing(text) || taken.left.has(mention.row, column)) continue;
    for (const device of byHeading(taken, mention.row, column, text, found))
      found.push(...settled(taken, mention, column, device, register));
  }
  return found;
}

function settled(
  taken: TakenTable,
  mention: Mention,
  column: Column,
  device: SpokenDevice,
  register: DeviceRegister,
): Found[] {
  const { row, conditionSide } = mention;
  const name = isField(column.meaning, 'device.family') ? cellOf(row, column) : column.heading;
  const worn = wornMeant(taken, mention, device, register);
  const family = ofFeet(
    familyNamed(name, taken.desk.rules) ?? worn[0]?.cells.family ?? familyOf(taken, row, device, column),
    mention,
    device,
    taken,
  );
  if (family === null) {
    markDaysOf(taken, row, column);
    return [];
  }
  const rule = taken.desk.rules.get(family);
  if (rule === undefined) {
    const families = [...taken.desk.rules.keys()].join(', ');
    taken.refuse(row, column, `is a ${family}, for which there is no fit rule`, families);
    return [];
  }
  const ofWorn = device.side === null ? worn.map(({ cells }) => cells.side as Found['sides'][number]) : [];
  const sides =
    ofWorn.length > 0 ? ofWorn : sidesOf({ taken, rule, device, name, at: [row, column], conditionSide });
  if (sides.length === 0) markDaysOf(taken, row, column);
  return sides.length === 0 ? [] : [{ device, family, sides, column }];
}

/** 'Attelle d'abduction' of a child with a club foot holds the feet, not the hip. */
function ofFeet(
  family: string | null,
  { isClubfoot }: Mention,
  { word, said }: SpokenDevice,
  taken: TakenTable,
): string | null {
  if (family !== 'hip-abduction-orthosis' || !isClubfoot || !/abdu/.test(word)) return family;
  taken.tell(`"${said || word}" of a child with a club foot is taken as boots and bar.`);
  return 'boots-and-bar';
}

/** Of which sides a device is, of whom, and the cell that may say so. */
interface OfSides {
  readonly taken: TakenTable;
  readonly rule: FamilyRule;
  readonly device: SpokenDevice;
  readonly name: string;
  readonly at: readonly [GridRow, Column];
  readonly conditionSide: string;
}

/** For which sides a device is: as its family or its name says, else as the clinic does; none while that is open. */
function sidesOf(of: OfSides): Found['sides'] {
  const { taken, rule, device } = of;
  if (rule.sides === 'none' || rule.sides === 'both') {
    if (device.plural) taken.tell(`"${device.word}" says more than one: one was taken of each cell.`);
    return [rule.sides];
  }
  if (device.side !== null) return device.side === 'both' ? ['left', 'right'] : [device.side];
  if (device.plural) {
    taken.tell(`"${device.word}" says no side and more than one: taken as a pair, one for each side.`);
    return ['left', 'right'];
  }
  return askSides(of);
}

function askSides({ taken, rule, device, name, at, conditionSide }: OfSides): Found['sides'] {
  const sided = saysSide(rule, conditionSide);
  const answer = taken.ask({
    id: `side:${device.word}${sided ? ':one-sided' : ''}`,
    asks: sided
      ? `"${name}" says no side, and the child's diagnosis does. Is it for the affected side?`
      : `"${name}" says no side. For which side is it?`,
    examples: [cellOf(...at)],
    suggested: sided ? 'affected' : null,
    at,
    choices: choices(['both', 'left', 'right', ...(sided ? ['affected'] : []), 'leave']),
  });
  if (answer === 'both') return ['left', 'right'];
  if (answer === 'left' || answer === 'right') return [answer];
  if (answer === 'affected' && sided) return [conditionSide as 'left'];
  return [];
}

/** A raise belongs under the shorter leg, which of an overgrowth is the other one than the diagnosis names. */
const saysSide = ({ id }: FamilyRule, conditionSide: string): boolean =>
  id !== 'shoe-raise' && (conditionSide === 'left' || conditionSide === 'right');
