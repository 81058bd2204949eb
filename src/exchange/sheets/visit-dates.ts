import { acceptedDates, IN_FUTURE } from '../../records/check/refuse.js';
import { daysBetween, type IsoDate } from '../../records/dates.js';
import { foldWords } from '../headings/fold-words.js';
import { deviceDays, isField } from '../headings/meaning.js';
import { wordSet } from '../headings/phrase-table.js';
import { headingAge, saysAge } from '../headings/written-age.js';
import { headingDate } from '../headings/written-date.js';
import { cellAge, cellDate, dateAtAge } from './cell-date.js';
import { dateOf, roughDays, sharedOrder } from './choose-dates.js';
import { type Column, cellOf } from './column.js';
import type { GridRow } from './grid.js';
import { dateInText, fieldColumns } from './sheet-rows.js';
import type { TakenTable } from './taken-table.js';

const todayWords = wordSet((v) => v.today);
const saysToday = (heading: string): boolean => foldWords(heading).some((word) => todayWords.has(word));
/** Days from the middle of a season to a day that is still called after it. */
const HALF_SEASON = 75;
const WHO = /^child\.(?:id|name|first_name|last_name)$/;

/** The date of measuring for a cell: in its heading, its group's visit, the row's visit, the cast, or the title. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: the places a date can stand in, from the nearest to the farthest
export function visitDates(taken: TakenTable) {
  const { today, asker } = taken.desk;
  const { table, columns, orders } = taken;
  const dateColumns = fieldColumns(columns, 'visit.date').filter((c) => c.cells > 0);
  const ages = taken.reckoned ? [] : fieldColumns(columns, 'visit.age').filter((c) => c.cells > 0);
  const readings = columns.filter((c) => c.meaning?.kind === 'reading' || isField(c.meaning, 'long.value'));
  // One visit a row takes its date from the column that is filled most; several take the nearest to their left.
  const main =
    dateColumns.length === 0
      ? undefined
      : [...dateColumns].sort((a, b) => b.cells - a.cells || a.index - b.index)[0];
  const grouped =
    dateColumns.filter((c, i) =>
      readings.some(
        (r) => r.index > c.index && (i + 1 >= dateColumns.length || r.index < dateColumns[i + 1].index),
      ),
    ).length > 1;
  const casts = fieldColumns(columns, 'device.cast_date');
  const fits = fieldColumns(columns, 'device.fitted_date');
  const shared = sharedOrder(orders);
  const titleDate =
    [...table.titles, table.file].map((t) => dateInText(t, today, shared)).find((d) => d !== null) ?? null;
  const told = new Set<string>();
  // biome-ignore lint/complexity/noExcessiveCognitiveComplexity: one date with what is told of it, once a cell
  const read = (row: GridRow, column: Column, text = cellOf(row, column)): IsoDate | null => {
    const date = text === '' ? null : dateOf(text, orders.get(column.index), today);
    if (date === null) return null;
    const once = `${row.row}/${column.index}`;
    if ('why' in date || date.date > today) {
      if (!told.has(once))
        taken.refuse(row, column, 'why' in date ? date.why : IN_FUTURE, acceptedDates('birth'));
      told.add(once);
      return null;
    }
    for (const said of roughDays(column, date)) taken.tell(said);
    return date.date;
  };
  /** The day of the row's cast, else of its fitting, once the clinic agrees; undefined where neither says anything. */
  const ofStage = (row: GridRow): IsoDate | null | undefined => {
    const [first] = (
      [
        ['cast', casts],
        ['fitting', fits],
      ] as const
    ).flatMap(([stage, days]) =>
      days.flatMap((c) => {
        const day = cellOf(row, c) === '' ? null : read(row, c);
        return day === null ? [] : [{ stage, day, examples: c.examples }];
      }),
    );
    if (first === undefined) return undefined;
    const { stage, day, examples } = first;
    const answer = taken.ask({
      id: `visit:from-${stage}`,
      asks: `The sheet has no date of measuring. Were the sizes taken on the day of the ${stage}?`,
      examples,
      suggested: stage === 'cast' ? 'yes' : null,
    });
    if (answer === 'no' && titleDate !== null) return undefined;
    return answer === 'yes' ? day : null;
  };
  /** 'Spring 2025 foot L' beside 'Spring 2025 date': the day in the row, where the heading says less than a day. */
  const dayBesideRough = (row: GridRow, column: Column, heading: string): IsoDate | null => {
    const rough = cellDate(heading, today);
    const day = dateColumns.findLast((c) => c.index < column.index);
    if (!rough?.monthOnly || day === undefined || cellOf(row, day) === '') return null;
    const date = dateOf(cellOf(row, day), orders.get(day.index), today);
    if (date === null || 'why' in date || rough.dayFirst === null) return null;
    return Math.abs(daysBetween(rough.dayFirst, date.date)) <= HALF_SEASON ? read(row, day) : null;
  };
  // A line that names no child and no day goes on with the day above it.
  const who = columns.filter(({ meaning }) => meaning?.kind === 'field' && WHO.test(meaning.field));
  let above: IsoDate | null = null;
  const readOrAbove = (row: GridRow, own: Column): IsoDate | null => {
    if (cellOf(row, own) !== '') above = read(row, own);
    else if (who.some((c) => cellOf(row, c) !== '')) above = null;
    return above;
  };
  // biome-ignore lint/complexity/noExcessiveCognitiveComplexity: the places a date can stand in, from the nearest to the farthest; the first that has one answers
  return (row: GridRow, column: Column | null, birth: IsoDate | null): IsoDate | null => {
    const days = column === null ? [] : deviceDayColumns(columns, column);
    if (column !== null && days.length > 0) {
      const filled = days.filter((c) => cellOf(row, c) !== '');
      const day = filled.filter((c) => c.index < column.index).pop() ?? filled[0];
      return day === undefined ? null : read(row, day);
    }
    const inHeading = column === null ? null : headingDate(column.heading);
    if (column !== null && inHeading !== null)
      return dayBesideRough(row, column, inHeading) ?? read(row, column, inHeading);
    const atAge = column === null || !readings.includes(column) ? null : headingAge(column.heading);
    if (column !== null && atAge !== null)
      return agesMeant(taken, column.heading) ? dayAt(birth, cellAge(atAge)) : null;
    const own = grouped && column !== null ? dateColumns.filter((c) => c.index < column.index).pop() : main;
    if (own && cellOf(row, own) !== '') return grouped ? read(row, own) : readOrAbove(row, own);
    if (own && !grouped && who.length > 0) {
      const carried = readOrAbove(row, own);
      if (carried !== null) return carried;
    }
    if (own) {
      const other = grouped ? undefined : dateColumns.find((c) => c !== own && cellOf(row, c) !== '');
      if (other) return read(row, other);
    }
    // Of several visits with an age each, the nearest to the left.
    const aged =
      ages.length > 1 ? ages.filter((c) => column !== null && c.index < column.index).pop() : ages[0];
    const atIts = aged === undefined ? null : dayAt(birth, cellAge(cellOf(row, aged), aged.heading));
    if (atIts !== null && atIts <= today) return atIts;
    // 'Foot L today' under a day: of that day, whenever the cast was.
    const ofTitle = titleDate !== null && column !== null && saysToday(column.heading);
    if (column !== null && readings.includes(column) && !ofTitle) {
      const staged = ofStage(row);
      if (staged !== undefined) return staged;
    }
    if (column === null && main === undefined) return titleDate;
    if (titleDate && dateColumns.length === 0) {
      taken.tell(`sizes are dated ${titleDate}, the date in the title.`);
      return titleDate;
    }
    if (column === null || dateColumns.length > 0 || !readings.includes(column)) return null;
    // A column that may hold the day, or the age, is asked about first.
    if (asker.waitsForDay(table.file) && ages.length === 0) return null;
    const said = taken.ask({
      id: `visit:date-of:${table.file}`,
      asks: 'On which day were these sizes taken? No column says so.',
      examples: column.examples,
      suggested: null,
      choices: [],
    });
    return said;
  };
}

const dayAt = (birth: IsoDate | null, age: number | null): IsoDate | null =>
  birth === null || age === null ? null : dateAtAge(birth, age);

/** '6 months' over sizes may be so long after a fitting: asked once, unless the words say that it is an age. */
function agesMeant(taken: TakenTable, heading: string): boolean {
  if ([heading, ...taken.table.titles].some(saysAge)) return true;
  const answer = taken.ask({
    id: 'visit:from-age',
    asks: `Is "${headingAge(heading)}" over sizes the age of the children at the visit?`,
    examples: [heading],
    suggested: 'yes',
  });
  return answer === 'yes';
}

/** For 'Foot at cast' the columns that say when that was, the ones of its own side before the others. */
export function deviceDayColumns(columns: readonly Column[], { meaning }: Column): readonly Column[] {
  if (meaning?.kind !== 'reading' || meaning.at === null) return [];
  const days = fieldColumns(columns, deviceDays[meaning.at]).filter((c) => c.cells > 0);
  const own = days.filter((c) => c.meaning?.kind === 'field' && c.meaning.side === meaning.side);
  return own.length > 0 ? own : days;
}
