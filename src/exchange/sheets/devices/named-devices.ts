import { familyNamed } from '../../csv/read-devices.js';
import { foldText } from '../../headings/fold-words.js';
import { wordSet } from '../../headings/phrase-table.js';
import type { FieldId } from '../../headings/vocabulary.js';
import { cellDevices, type DeviceSide, openNameIn, type SpokenDevice } from '../cell-device.js';
import { deviceDates } from '../cell-device-dates.js';
import { bothWords, leftWords, noWords, rightWords, saysNothing, sideIn, yesWords } from '../cell-words.js';
import type { Column } from '../column.js';
import type { GridRow } from '../grid.js';
import { cellOf, fieldColumns, refusal } from '../sheet-rows.js';
import { type DeviceSheet, ofDevice } from './device-sheet.js';

/** 'as before': the device goes on, and this line says nothing new of it. */
const sameWords = wordSet((v) => v.unchanged);
const NOTHING_SAID = { likely: null, cast: null, fitted: null, fresh: false };
/** 'Insoles given': more than one by its heading. */
const severalUnder = ({ heading }: Column): boolean => cellDevices(heading).some(({ plural }) => plural);

/** A device a row names, its family and sides settled. */
export interface Found {
  readonly device: SpokenDevice;
  readonly family: string;
  readonly sides: readonly ('left' | 'right' | 'both' | 'none')[];
  readonly column: Column;
}

/** The devices of a row, by the columns that name them. */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: a cell names devices, sides and ends in any order, told apart in one walk
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: a cell names devices, sides and ends in any order, told apart in one walk
export function devicesIn(sheet: DeviceSheet, row: GridRow, conditionSide: string): Found[] {
  const { columns } = sheet.taken;
  const found: Found[] = [];
  const named = columns.some((c) => c.meaning?.kind === 'device' || isField(c, 'device.family'));
  const bySide = columns.some(isSideOfDevice);
  for (const column of columns) {
    const { meaning } = column;
    const text = cellOf(row, column);
    if (text === '' || saysNothing(text) || sameWords.has(foldText(text))) continue;
    if (meaning?.kind === 'device') {
      const word = foldText(text);
      if (noWords.has(word)) continue;
      const side =
        meaning.side ??
        (leftWords.has(word)
          ? 'left'
          : rightWords.has(word)
            ? 'right'
            : bothWords.has(word) && !yesWords.has(word)
              ? 'both'
              : null);
      found.push(
        ...settled(
          sheet,
          row,
          column,
          {
            ...NOTHING_SAID,
            fitted: deviceDates(text).fitted,
            family: meaning.family,
            side,
            plural: severalUnder(column),
            word: foldText(column.heading),
          },
          conditionSide,
        ),
      );
    } else if (meaning?.kind === 'field' && meaning.field === 'device.family') {
      for (const device of devicesUnder(column.heading, text)) {
        const side =
          device.side ??
          meaning.side ??
          sideColumn(sheet, row, column) ??
          sideOfDates(sheet, row, device.family);
        found.push(...settled(sheet, row, column, { ...device, side }, conditionSide));
      }
    } else if (
      !named &&
      !bySide &&
      isStage(column) &&
      column.meaning.family === null &&
      !noWords.has(foldText(text))
    ) {
      // 'Brace given' alone says when and not which.
      const family = deviceOfSheet(sheet, column);
      const { side } = column.meaning;
      if (family === null || found.some((f) => f.family === family)) continue;
      const device = { ...NOTHING_SAID, family, side, plural: severalUnder(column), word: foldText(family) };
      found.push(...settled(sheet, row, column, device, conditionSide));
    } else if (!named && isSideOfDevice(column)) {
      // 'AFO side': the heading names the device.
      const side = sideIn(text);
      const device = {
        ...NOTHING_SAID,
        family: column.meaning.family,
        side,
        plural: false,
        word: openNameIn(column.heading) ?? foldText(column.meaning.family),
      };
      if (side !== null) found.push(...settled(sheet, row, column, device, conditionSide));
    } else if (!named && isDatedDevice(column) && !noWords.has(foldText(text))) {
      // 'AFO left - cast': the date's own heading names the device.
      const { family, side } = column.meaning as { family: string; side: DeviceSide | null };
      if (found.some((f) => f.device.family === family && f.device.side === side)) continue;
      found.push(
        ...settled(
          sheet,
          row,
          column,
          { ...NOTHING_SAID, family, side, plural: severalUnder(column), word: foldText(family) },
          conditionSide,
        ),
      );
    }
  }
  return found;
}

/** 'AFO type' over 'rigid both': the heading names what the cell tells more of. */
function devicesUnder(heading: string, text: string): readonly SpokenDevice[] {
  const devices = cellDevices(text);
  const open = devices.every((d) => d.family === null) ? openNameIn(heading) : null;
  const together = open === null ? [] : cellDevices(`${open} ${text}`);
  return together.length > 0 && together.every((d) => d.family !== null && !d.family.includes('|'))
    ? together
    : devices;
}

/** The side a side column says; both for a cell 'L + R'. */
function sideColumn(sheet: DeviceSheet, row: GridRow, named: Column): DeviceSide | null {
  for (const column of ofDevice(sheet, fieldColumns(sheet.taken.columns, 'side'), named)) {
    const side = sideIn(cellOf(row, column));
    if (side !== null) return side;
  }
  return null;
}

/** 'Cast L' and 'Cast R': the device is for the side whose date is filled. */
function sideOfDates({ taken }: DeviceSheet, row: GridRow, family: string | null): DeviceSide | null {
  const dated = taken.columns
    .filter(isStage)
    .filter(({ meaning }) => meaning.family === null || meaning.family === family);
  const filled = new Set(
    dated
      .filter((c) => !saysNothing(cellOf(row, c)) && !noWords.has(foldText(cellOf(row, c))))
      .map((c) => c.meaning.side),
  );
  if (filled.has('left')) return filled.has('right') ? 'both' : 'left';
  return filled.has('right') ? 'right' : null;
}

function settled(
  sheet: DeviceSheet,
  row: GridRow,
  column: Column,
  device: SpokenDevice,
  conditionSide: string,
): Found[] {
  const name = isField(column, 'device.family') ? cellOf(row, column) : column.heading;
  const family = familyNamed(name, sheet.rules) ?? familyOf(sheet, device, column);
  if (family === null) return [];
  const rule = sheet.rules.get(family);
  if (rule === undefined) {
    sheet.refused.push(
      refusal(
        sheet.taken.table,
        row,
        column,
        `is a ${family}, for which there is no fit rule`,
        [...sheet.rules.keys()].join(', '),
      ),
    );
    return [];
  }
  if (rule.sides === 'none') return [{ device, family, sides: ['none'], column }];
  if (rule.sides === 'both') return [{ device, family, sides: ['both'], column }];
  if (device.side === 'both') return [{ device, family, sides: ['left', 'right'], column }];
  if (device.side !== null) return [{ device, family, sides: [device.side], column }];
  if (device.plural) {
    const pair = `${sheet.taken.table.file}: "${device.word}" says no side and more than one: taken as a pair, one for each side.`;
    if (!sheet.notices.includes(pair)) sheet.notices.push(pair);
    return [{ device, family, sides: ['left', 'right'], column }];
  }
  const sided = conditionSide === 'left' || conditionSide === 'right';
  const answer = sheet.asker.ask({
    id: `side:${device.word}${sided ? ':one-sided' : ''}`,
    file: sheet.taken.table.file,
    asks: sided
      ? `"${name}" says no side, and the child's diagnosis does. Is it for the affected side?`
      : `"${name}" says no side. For which side is it?`,
    examples: [cellOf(row, column)],
    cells: 1,
    suggested: sided ? 'affected' : null,
    choices: ['both', 'left', 'right', ...(sided ? ['affected'] : []), 'leave'].map((a) => ({
      answer: a,
      label: a,
    })),
  });
  if (answer === 'both') return [{ device, family, sides: ['left', 'right'], column }];
  if (answer === 'left' || answer === 'right') return [{ device, family, sides: [answer], column }];
  if (answer === 'affected' && sided) return [{ device, family, sides: [conditionSide as 'left'], column }];
  return [];
}

/** The family of a name: asked once a word where the name leaves it open or nobody knows it. */
function familyOf(sheet: DeviceSheet, { family, likely, word }: SpokenDevice, column: Column): string | null {
  const open = family === null ? [] : family.split('|').filter((f) => sheet.rules.has(f));
  if (family !== null && open.length === 1) return open[0];
  if (family !== null && !family.includes('|')) return family;
  const choices = open.length > 0 ? open : [...sheet.rules.keys()];
  const answer = sheet.asker.ask({
    id: `device:${word.replace(/s$/, '')}`,
    file: sheet.taken.table.file,
    asks:
      open.length > 0
        ? `Which device does this clinic mean by "${word}"?`
        : `Which device is "${word}" under "${column.heading}"?`,
    examples: [word],
    cells: 1,
    suggested: open[0] ?? likely?.split('|').find((f) => sheet.rules.has(f)) ?? null,
    choices: familyChoices(choices, sheet.rules),
  });
  return answer !== null && sheet.rules.has(answer) ? answer : null;
}

/** The one device of a sheet that gives its dates and never its name. */
function deviceOfSheet({ taken, rules, asker }: DeviceSheet, column: Column): string | null {
  const has = (test: (meaning: NonNullable<Column['meaning']>) => boolean) =>
    taken.columns.some((c) => c.meaning !== null && test(c.meaning));
  const spine = has((m) => m.kind === 'field' && m.field === 'marker.pelvis_stage');
  const feet = has((m) => m.kind === 'reading' && m.measure.startsWith('foot_'));
  const head = has((m) => m.kind === 'reading' && m.measure === 'head_circumference');
  const likely = feet ? null : spine ? 'spinal-orthosis' : head ? 'cranial-orthosis' : null;
  const answer = asker.ask({
    id: 'one-device',
    file: taken.table.file,
    asks: `"${column.heading}" says when and no column says which device. Which is it?`,
    examples: column.examples,
    cells: 1,
    suggested: likely !== null && rules.has(likely) ? likely : null,
    choices: familyChoices([...rules.keys()], rules),
  });
  return answer !== null && rules.has(answer) ? answer : null;
}

const familyChoices = (families: readonly string[], rules: DeviceSheet['rules']) =>
  [...families, 'leave'].map((answer) => ({ answer, label: rules.get(answer)?.names.en.clinical ?? answer }));

const isField = (column: Column, field: FieldId): boolean =>
  column.meaning?.kind === 'field' && column.meaning.field === field;
type Field = Extract<Column['meaning'], { kind: 'field' }>;
/** A column of the days of a stage: the cast, the fitting. */
const isStage = (column: Column): column is Column & { meaning: Field } =>
  column.meaning?.kind === 'field' &&
  (column.meaning.field === 'device.cast_date' || column.meaning.field === 'device.fitted_date');
/** 'AFO side'. */
const isSideOfDevice = (column: Column): column is Column & { meaning: Field & { family: string } } =>
  column.meaning?.kind === 'field' && column.meaning.field === 'side' && column.meaning.family !== null;
const isDatedDevice = (column: Column): boolean => isStage(column) && column.meaning.family !== null;
