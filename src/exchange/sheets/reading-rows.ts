import type { IsoDate } from '../../records/dates.js';
import { type MeasureId, measures } from '../../records/measure.js';
import type { Unit } from '../../records/units.js';
import { foldText, foldWords } from '../headings/fold-words.js';
import { type Candidate, headingCandidates, likeliestMeaning } from '../headings/heading-meaning.js';
import { type ColumnSide, isField, type Meaning, meaningNamed } from '../headings/meaning.js';
import type { Language } from '../headings/vocabulary.js';
import { answerChoices, type Choice } from './answer-choices.js';
import { type CellSize, cellPair, cellSize, cellSizes, unitWord } from './cell-size.js';
import { isDoubt, saysNothing, saysNotMeasured } from './cell-words.js';
import { type Column, cellOf } from './column.js';
import { isOfHead, isOfHelmets, ofHead } from './column-candidates.js';
import type { GridRow } from './grid.js';
import type { Person } from './people.js';
import { doubtedIn, isCorrected } from './remark-doubts.js';
import { sideBeside, sideOfRow } from './row-side.js';
import { sheetLanguages } from './sheet-languages.js';
import { fieldCell, fieldColumns } from './sheet-rows.js';
import type { TakenTable } from './taken-table.js';
import { valueChoices } from './value-choices.js';
import { valueFit } from './value-fit.js';
import { deviceDayColumns } from './visit-dates.js';

/** One size in one cell of a row, before its unit is known. */
export interface RawReading {
  readonly row: GridRow;
  readonly person: Person;
  readonly date: IsoDate;
  readonly column: Column;
  readonly measure: MeasureId;
  readonly sides: readonly ('left' | 'right' | 'none')[];
  readonly size: CellSize;
  readonly given: string;
  /** Unit said outside the cell and heading: a unit column. */
  readonly unitBeside: Unit | null;
}

const OF = { none: ['none'], left: ['left'], right: ['right'], both: ['left', 'right'] } as const;
const ACCEPTED = 'a number such as 175, 17.5 or 17,5 with or without its unit';

/** Sizes of a row, wide or tidy, each with its side; what cannot be read is refused cell by cell. */
export function readingsIn(
  taken: TakenTable,
  row: GridRow,
  person: Person,
  dateFor: (column: Column) => IsoDate | null,
): RawReading[] {
  const out: RawReading[] = [];
  const doubted = doubtedIn(taken.columns, row);
  // 'Estimated' in a column of its own, in a list with a row a reading.
  const unsure =
    fieldColumns(taken.columns, 'long.value').length > 0 &&
    taken.columns.some(
      (c) => (c.meaning === null || /^(?:keep|remark)$/.test(c.meaning.kind)) && isDoubt(cellOf(row, c)),
    );
  const take = (
    column: Column,
    measure: MeasureId,
    side: ColumnSide,
    cell: string,
    unitBeside: Unit | null,
    // biome-ignore lint/complexity/noExcessiveCognitiveComplexity: one cell, and every reason for which it is asked about or refused
  ) => {
    if (saysNothing(cell)) return;
    const date = dateFor(column);
    if (date === null) return undated(taken, row, column);
    const push = (text: string, sides: RawReading['sides']) => {
      markSize(taken, row, column, text);
      if (saysNothing(text) || saysNotMeasured(text)) return;
      const read = cellSize(text);
      const doubt = unsure || doubted.has(measure) || isCorrected(taken.columns, row, read?.value ?? 0);
      const size = read && doubt ? { ...read, doubt } : read;
      if (size === null) taken.refuse(row, column, 'is not a size', ACCEPTED, text);
      else out.push({ row, person, date, column, measure, sides, size, given: text, unitBeside });
    };
    if (!measures[measure].sided) return push(cell, OF.none);
    const sizes = cellSizes(cell);
    const [one, other] = sizes;
    const both = sizes.length === 2 && one.side !== null && other.side !== null && one.side !== other.side;
    if (sizes.length === 1 && one.side !== null) {
      const said = side === 'row' ? sideBeside(taken, row) : side;
      if (one.side === said || !(said === 'left' || said === 'right')) return push(one.text, OF[one.side]);
      const why = `is of the ${one.side} where the ${said} is said`;
      return taken.refuse(row, column, why, 'one side for a size');
    }
    if (side === 'left' || side === 'right') return push(cell, OF[side]);
    if (both) {
      for (const { text, side: of } of sizes) push(text, OF[of as 'left']);
      return;
    }
    const pair = cellPair(cell);
    if (side === 'left-right' || side === 'right-left') {
      if (pair === null) {
        const why = cellSize(cell) ? 'is one size where two are to be' : 'are not two sizes';
        return taken.refuse(row, column, why, 'both sides with / between them, such as 168/172');
      }
      push(pair[0], side === 'left-right' ? OF.left : OF.right);
      push(pair[1], side === 'left-right' ? OF.right : OF.left);
      return;
    }
    if (side === 'both') return push(cell, OF.both);
    // '17,5 - 17,7' of both sides is one each.
    const isPair =
      pair !== null && (column.pairs || cellSize(cell) === null || sideBeside(taken, row) === 'both');
    const said = sideOfRow({ taken, row, measure, column, cell, isPair });
    if (said === null) return;
    if (said === 'left-right' || said === 'right-left') return take(column, measure, said, cell, unitBeside);
    push(cell, OF[said as 'both']);
  };
  for (const column of taken.columns) {
    if (column.meaning?.kind !== 'reading') continue;
    take(column, column.meaning.measure, column.meaning.side, cellOf(row, column), null);
  }
  tidy(taken, row, take);
  return out;
}

/** A size with a doubt is told in its own words once its unit is chosen. */
function markSize({ left }: TakenTable, row: GridRow, column: Column, text: string): void {
  left.mark(row, column);
  if (cellSize(text)?.doubt) left.tell(row, column, text);
}

/** A size without a day, refused where no question about the day waits. */
function undated(taken: TakenTable, row: GridRow, column: Column): void {
  const visits = fieldColumns(taken.columns, 'visit.date');
  const days = deviceDayColumns(taken.columns, column);
  const empty = (days.length > 0 ? days : visits).find((c) => cellOf(row, c) === '');
  const waits = taken.desk.asker.waitsForDay(taken.table.file);
  // The day was refused, and with it the size.
  if ([...days, ...visits].some((c) => taken.left.has(row, c))) {
    taken.left.settle(row, [column], 'refused');
    taken.left.mark(row, column);
    return;
  }
  if (empty || waits) taken.left.mark(row, column);
  if (empty) taken.refuse(row, empty, 'is missing', 'the date of measuring');
  else if (visits.length === 0 && !waits)
    taken.refuse(row, column, 'has no date of measuring', 'a column with the date of the visit');
}

/** One row a reading: measure, side, value and unit in columns of their own. */
function tidy(
  taken: TakenTable,
  row: GridRow,
  take: (column: Column, measure: MeasureId, side: ColumnSide, cell: string, unit: Unit | null) => void,
): void {
  const value = fieldColumns(taken.columns, 'long.value')[0];
  const what = fieldCell(taken.columns, row, 'long.measure');
  if (value === undefined || what.column === null) return;
  if (what.text === '' && cellOf(row, value) === '') return;
  const known = measureOf(what.text, cellOf(row, value), what.column, taken);
  if (known === null && (what.text === '' || LIKE_OURS.test(what.text))) {
    const why = what.text === '' ? 'is missing' : 'is not a measure doorpost knows';
    taken.refuse(row, what.column, why, Object.keys(measures).join(', '));
    return;
  }
  const named = known ?? askMeasure(what.text, row, value, what.column, taken);
  if (named?.kind !== 'reading') return;
  const unitText = fieldCell(taken.columns, row, 'long.unit');
  const unit = unitWord(unitText.text);
  if (unitText.text !== '' && unit === null) {
    const why = `has the unknown unit "${unitText.text}"`;
    taken.refuse(row, unitText.column, why, 'mm, cm, m, inch or ft; kg, g or lb');
    return;
  }
  const cell = cellOf(row, value);
  if (cell === '') {
    taken.refuse(row, value, 'is missing', ACCEPTED);
    return;
  }
  take(value, named.measure, named.side, cell, unit ?? named.unit ?? unitInHeading(value.heading));
}

/** 'Value (mm)'. */
const unitInHeading = (heading: string): Unit | null =>
  foldWords(heading)
    .map(unitWord)
    .find((unit) => unit !== null) ?? null;

/** What a word in a column of measures means: of several, in the language of the column and as the value can be. */
function measureOf(text: string, value: string, column: Column, taken: TakenTable): Meaning | null {
  // In a list of helmets a bare 'circumference' is the head's.
  const sized = headingCandidates(text).some(
    ({ meaning, strength }) =>
      meaning.kind === 'reading' && meaning.measure !== 'stature' && strength >= 0.75,
  );
  const [head] = !sized && headsIn(taken, column) === 'helmets' ? ofHead(text) : [];
  if (head?.meaning.kind === 'reading') return head.meaning;
  // A bare 'Length' among the lines of a head is no child's.
  const least = headsIn(taken, column) ? 0.8 : 0.75;
  // 'Foot length allowance': beside a word nobody knows a size may be of anything; it is asked.
  const found = headingCandidates(text).filter(
    (c) => c.meaning.kind === 'reading' && c.strength >= least && c.unknownWords === 0,
  );
  if (found.length < 2) return found[0]?.meaning ?? null;
  const language = columnLanguages(taken, column);
  const weight = (c: Candidate) =>
    valueFit(c.meaning, value === '' ? [] : [value], '') +
    (c.languages.some((l) => language.includes(l)) ? 0.5 : 0) +
    c.strength;
  return [...found].sort((a, b) => weight(b) - weight(a))[0].meaning;
}

/** Written as our own tables name a size: a slip in it is no word of the clinic's. */
const LIKE_OURS = /^[a-z]+(?:_[a-z]+)+$/;

/** A word for a size that nobody knows: asked once. */
function askMeasure(
  text: string,
  row: GridRow,
  value: Column,
  column: Column,
  taken: TakenTable,
): Meaning | null {
  // 'DF knee ext': an angle, or what else no size is made of.
  if (likeliestMeaning(text)?.kind === 'keep') return null;
  if (headingCandidates(text).some(({ meaning }) => isField(meaning, 'shoe.size'))) {
    taken.tell('shoe sizes among the lines of sizes are not read: they need a column of their own.');
    return null;
  }
  const head = headsIn(taken, column) ? ofHead(text)[0]?.meaning : undefined;
  const id = `measure:${foldText(text)}`;
  const cell = cellOf(row, value);
  const near = valueChoices([cell], taken.desk.today, text, new Set()).map((choice) => choice.split(' ')[0]);
  const rank = ({ answer }: Choice) => (near.includes(answer) ? near.indexOf(answer) : near.length);
  const answer = taken.ask({
    id,
    asks: `Which size is "${text}" under "${column.heading}"?`,
    examples: [cell],
    suggested: head?.kind === 'reading' ? head.measure : null,
    choices: answerChoices(id, new Map()).sort((a, b) => rank(a) - rank(b)),
    at: [row, value],
  });
  return answer === null ? null : meaningNamed(answer);
}

/** Whether a list is one of helmets by its title, headings or lines, or its lines name the circumference of the head. */
function headsIn(taken: TakenTable, column: Column): 'helmets' | 'heads' | null {
  const known = ofHeads.get(taken);
  if (known !== undefined) return known;
  const { titles, file, headings, rows } = taken.table;
  const named = [...new Set(rows.slice(0, 400).map((row) => cellOf(row, column)))];
  const helmets = isOfHelmets({ titles, file, headings: [...headings, ...named] });
  const heads = named.some(isOfHead) ? 'heads' : null;
  const found = helmets ? 'helmets' : heads;
  ofHeads.set(taken, found);
  return found;
}
const ofHeads = new WeakMap<TakenTable, 'helmets' | 'heads' | null>();

const languagesOf = new WeakMap<TakenTable, readonly Language[]>();
function columnLanguages(taken: TakenTable, column: Column): readonly Language[] {
  const known = languagesOf.get(taken);
  if (known) return known;
  const headings = [...new Set(taken.table.rows.slice(0, 400).map((row) => cellOf(row, column)))];
  const found = sheetLanguages({ headings: [...headings, ...taken.table.headings] });
  languagesOf.set(taken, found);
  return found;
}
