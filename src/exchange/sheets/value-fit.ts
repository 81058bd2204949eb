import { measures } from '../../records/measure.js';
import { lengthUnits, massUnits, toBaseUnit, type Unit } from '../../records/units.js';
import { foldText } from '../headings/fold-words.js';
import { headingCandidates } from '../headings/heading-meaning.js';
import type { Meaning } from '../headings/meaning.js';
import { birthYear, cellAge, cellDate, saidAge } from './cell-date.js';
import { cellDevices } from './cell-device.js';
import { dayAlone, daysMarked, stageSaid } from './cell-device-dates.js';
import { cellPair, cellSize, cellSizes } from './cell-size.js';
import { bothWords, leftWords, noWords, rightWords, sexWords, wordIn, yesWords } from './cell-words.js';
import { saysKind } from './device-names.js';
import { canBe, isUsual } from './usual-size.js';

const saidSex = new Set([...sexWords, 'u', 'x', 'unknown', 'other']);

const share = <T>(cells: readonly T[], test: (cell: T) => boolean): number =>
  cells.length === 0 ? 0.8 : cells.filter(test).length / cells.length;

/** How many of a column's values can be what the heading says, 0 to 1. */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: one case a meaning
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one case a meaning
export function valueFit(meaning: Meaning, cells: readonly string[], today: string): number {
  const isDate = (c: string) => cellDate(c, today) !== null;
  const word = (set: ReadonlySet<string>) => (c: string) => set.has(foldText(c));
  switch (meaning.kind) {
    case 'keep':
      return 0.9;
    case 'remark':
      return share(cells, (c) => /\p{L}/u.test(c));
    case 'device-size':
      return 1;
    case 'reading':
      return readingFit(meaning, cells);
    case 'device':
      return share(
        cells,
        (c) =>
          isDate(c) ||
          word(leftWords)(c) ||
          word(rightWords)(c) ||
          word(bothWords)(c) ||
          word(yesWords)(c) ||
          word(noWords)(c) ||
          daysMarked(c).days.length > 0 ||
          stageSaid(c) !== null,
      );
  }
  const field = meaning.field;
  if (field === 'child.birth_date') return share(cells, (c) => isDate(c) || birthYear(c) !== null);
  // 'Cast? yes' is the day of the visit.
  if (field === 'device.cast_date' || field === 'device.fitted_date')
    return (
      share(
        cells,
        (c) =>
          isDate(c) || isDate(dayAlone(c)) || word(yesWords)(c) || word(noWords)(c) || saidAge(c) !== null,
      ) *
      // 'Fit' over yes and ok says how, and over days when.
      (cells.every((c) => /\d/.test(c) || !/\p{L}/u.test(c)) || cells.some(isDate) ? 1 : 0.85)
    );
  if (field.endsWith('_date') || field === 'visit.date' || field === 'marker.menarche')
    return share(cells, isDate);
  switch (field) {
    case 'child.sex':
      return share(cells, word(saidSex));
    case 'child.name':
    case 'child.first_name':
    case 'child.last_name':
      return share(cells, (c) => /\p{L}\P{N}*\p{L}/u.test(c) && !isDate(c));
    case 'child.id':
      return (
        share(
          cells,
          (c) =>
            c.length <= 40 &&
            !/^\d{1,2}[./-]\d{1,2}[./-]\d{2,4}$/.test(c) &&
            !/\p{L}{3,}[, ]+\p{L}{3,}/u.test(c),
        ) *
        // Without a figure anywhere it is a name as well.
        (cells.length === 0 || cells.some((c) => /\d/.test(c)) ? 1 : 0.75) *
        (new Set(cells).size > cells.length * 0.1 || cells.length < 5 ? 1 : 0.7)
      );
    case 'visit.age':
    case 'marker.bone_age':
      // '23+4' is weeks and days.
      return share(cells, (c) => cellAge(c) !== null || /^\d{1,3}\+[0-6](?!\d)/.test(c));
    case 'child.gestation_weeks':
      return share(cells, (c) => /^\D*(2[2-9]|3\d|4[0-4])\b/.test(c) || /term/i.test(c));
    case 'side':
    case 'child.affected_side':
      return share(cells, (c) => word(leftWords)(c) || word(rightWords)(c) || word(bothWords)(c));
    case 'device.family':
      return deviceFit(cells, isDate);
    case 'device.verdict':
      return Math.max(
        0.3,
        share(cells, (c) => wordIn(c, 'verdicts') !== null),
      );
    case 'device.end_reason':
      return Math.max(
        0.3,
        share(cells, (c) => wordIn(c, 'endReasons') !== null),
      );
    case 'device.status':
      return share(cells, (c) => wordIn(c, 'deviceStates') !== null);
    case 'child.status':
      return share(cells, (c) => wordIn(c, 'childStates') !== null);
    case 'long.measure':
      return share(cells, (c) => headingCandidates(c).some((m) => m.meaning.kind === 'reading'));
    case 'long.value':
      return share(cells, (c) => cellSize(c) !== null);
    case 'long.unit':
      return share(cells, (c) => c.length <= 12 && /\p{L}|"/u.test(c));
    case 'shoe.size':
      return share(cells, (c) => /\d/.test(c) && c.length < 16);
    case 'marker.pelvis_stage':
    case 'marker.hand_stage':
      return share(cells, (c) => /^\D{0,12}[0-8][ab+-]?$/i.test(c) || /^[ivIV]+$/.test(c));
    case 'child.latex_alert':
    case 'child.insensate_skin':
    case 'child.palliative':
    case 'child.walks':
    case 'child.prefers_holidays':
      return share(cells, (c) => word(yesWords)(c) || word(noWords)(c)) * 0.6 + 0.4;
    case 'child.conditions':
      // 'outgrown' under 'Reason' ends a device and is no diagnosis.
      return share(cells, (c) => /\p{L}/u.test(c) && wordIn(c, 'endReasons') === null);
    default:
      return share(cells, (c) => !isDate(c) || /\p{L}/u.test(c));
  }
}

/** So many words for devices that nobody knows are asked about one by one; of more, what the column is. */
const MOST_UNKNOWN = 6;

const LIKELY = 0.75;

/** Names of devices; a word nobody knows may be the clinic's own for one, and counts half. */
function deviceFit(cells: readonly string[], isDate: (cell: string) => boolean): number {
  const named = (c: string) => saysKind(c) || cellDevices(c).some((d) => d.family !== null);
  // Of 'Nachtkorsett' the family is likely: under a heading of devices it is one, and asked about.
  const likely = (c: string) => !named(c) && cellDevices(c).some((d) => d.likely !== null);
  const known = share(cells, named) + (cells.length === 0 ? 0 : LIKELY * share(cells, likely));
  const others = cells.filter((c) => !isDate(c) && /\p{L}{3}/u.test(c) && c.length <= 40);
  const few = new Set(others.map(foldText)).size <= MOST_UNKNOWN;
  const own = few && others.length === cells.length ? (1 - known) / 2 : 0;
  return Math.min(1, known * 1.15 + own);
}

/** A column of sizes that hardly any child has may still be what its heading says, but another meaning is likelier. */
const UNUSUAL = 0.85;

type Reading = Extract<Meaning, { kind: 'reading' }>;

function readingFit({ measure, side, unit }: Reading, cells: readonly string[]): number {
  const units: readonly Unit[] = measures[measure].unit === 'kg' ? massUnits : lengthUnits;
  const pair = side === 'left-right' || side === 'right-left' || side === 'row';
  const read = cells.map((cell) => {
    const size = cellSize(cell);
    const both = !size && pair && (cellPair(cell) !== null || cellSizes(cell).length === 2);
    return { both, sizes: size ? units.map((u) => toBaseUnit(size.value, u)) : [] };
  });
  const possible = share(read, ({ both, sizes }) => both || sizes.some((mm) => canBe(measure, mm, null)));
  // '78,5' under 'Becken (cm)' is no breadth, whatever it would be in mm.
  const usual = share(
    read,
    ({ both, sizes }) =>
      both || sizes.some((mm, at) => isUsual(measure, mm) && (unit === null || units[at] === unit)),
  );
  return usual < 0.5 ? UNUSUAL * possible : possible;
}
