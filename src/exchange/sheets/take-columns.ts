import { foldText } from '../headings/fold-words.js';
import { type Candidate, headingCandidates } from '../headings/heading-meaning.js';
import { type Meaning, meaningNamed, meaningText } from '../headings/meaning.js';
import { answerLabel } from '../headings/meaning-label.js';
import { ownMeanings } from '../headings/own-columns.js';
import { type Language, languages } from '../headings/vocabulary.js';
import { saysNothing } from './cell-words.js';
import type { SheetTable } from './grid.js';
import type { Asker, Certainty } from './questions.js';
import { fieldByValues, holdsNotes, valueChoices } from './value-choices.js';
import { valueFit } from './value-fit.js';

export interface Column {
  readonly index: number;
  readonly heading: string;
  /** What it was taken for; null while the clinic has not said. */
  readonly meaning: Meaning | null;
  readonly certainty: Certainty;
  readonly candidates: readonly Candidate[];
  /** Filled cells, and the first few. */
  readonly cells: number;
  readonly examples: readonly string[];
}

const SAMPLE = 400;

/** Fields of which a row has one. */
const REPEATABLE = new Set([
  'visit.date',
  'visit.age',
  'side',
  'device.family',
  'device.cast_date',
  'device.fitted_date',
  'device.status',
  'device.verdict',
  'device.footplate',
  'device.id',
  'child.contact',
  'child.conditions',
  'shoe.size',
]);

/** What each column holds, decided over whole columns: heading, values and neighbours together. */
export function takeColumns(table: SheetTable, asker: Asker, today: string): Column[] {
  const sampled = table.headings.map((_, index) => sample(table, index));
  const shown = table.headings.map((heading, index) => ({ heading, index, values: sampled[index] }));
  const language = sheetLanguages(table);
  const own = ownMeanings(table.headings);
  const scored = shown.flatMap(({ heading, index, values }) => {
    const ours = own.get(index);
    if (ours) return [{ index, candidate: { meaning: ours, strength: 1, languages }, fit: 1, score: 2 }];
    return candidatesAt(table, index, heading).map((candidate) => {
      const fit = valueFit(candidate.meaning, values.cells, today);
      const spoken =
        candidate.languages.length === 0 || candidate.languages.some((l) => language.includes(l));
      return { index, candidate, fit, score: candidate.strength * (0.3 + 0.7 * fit) * (spoken ? 1 : 0.9) };
    });
  });
  scored.sort((a, b) => b.score - a.score || b.fit - a.fit || a.index - b.index);
  const taken = new Map<number, (typeof scored)[number]>();
  const used = new Set<string>();
  const repeats = repeatedVisits(table, scored);
  for (const option of scored) {
    if (taken.has(option.index) || option.fit < 0.25 || option.score < 0.42) continue;
    const key = uniqueKey(option.candidate.meaning, ordinal(table.headings, option.index));
    if (key !== null && used.has(key) && !(repeats && key.startsWith('reading'))) continue;
    if (key !== null) used.add(key);
    taken.set(option.index, option);
  }
  return shown.map(({ heading, index, values }) => {
    const option = taken.get(index);
    const candidates = scored.filter((s) => s.index === index).map((s) => s.candidate);
    const rival = scored.find(
      (s) =>
        s.index === index &&
        option &&
        s.candidate !== option.candidate &&
        essence(s.candidate.meaning) !== essence(option.candidate.meaning),
    );
    const close =
      option &&
      rival &&
      rival.score > option.score - 0.03 &&
      rival.fit >= 0.8 &&
      !(uniqueKey(rival.candidate.meaning) !== null && used.has(uniqueKey(rival.candidate.meaning) ?? ''));
    const certainty: Certainty = !option
      ? 'unknown'
      : ((option.candidate.strength >= 0.85 && option.fit >= 0.75) ||
            (option.candidate.strength >= 0.9 && option.fit >= 0.45)) &&
          !close
        ? 'certain'
        : 'probable';
    const base = { index, heading, candidates, cells: values.count, examples: values.cells.slice(0, 4) };
    return answered(
      { ...base, meaning: option?.candidate.meaning ?? null, certainty },
      values.cells,
      used,
      table,
      asker,
      today,
    );
  });
}

const WHO = /^child\.(?:id|name|first_name|last_name)$/;

/** The clinic's own answer for a column, else what is certain; a probable or unknown one is asked. */
function answered(
  column: Column,
  values: readonly string[],
  taken: ReadonlySet<string | null>,
  table: SheetTable,
  asker: Asker,
  today: string,
): Column {
  const { cells, examples, certainty, meaning } = column;
  if (cells === 0) return { ...column, meaning: certainty === 'certain' ? meaning : null };
  const name = columnName(column);
  const id = columnQuestion(column);
  const said = asker.known(id, table.file);
  const named = said === null ? null : meaningNamed(said);
  if (named) {
    asker.used.set(id, said ?? '');
    return { ...column, meaning: named, certainty: 'certain' };
  }
  if (certainty === 'certain') return column;
  // Words under a heading nobody knows are remarks; without any heading they may be the children's names.
  const keptUnasked = column.heading !== '' && holdsNotes(values, today);
  const byValues =
    meaning === null
      ? fieldByValues(values, today, column.heading !== '' && ![...taken].some((key) => WHO.test(key ?? '')))
      : null;
  const likeliest = meaning ?? (byValues !== null && !taken.has(uniqueKey(byValues)) ? byValues : null);
  const suggested = likeliest !== null ? meaningText(likeliest) : keptUnasked ? 'keep' : null;
  const likely = column.candidates.map((c) => meaningText(c.meaning));
  const possible = meaning === null ? valueChoices(values, today) : [];
  const choices = [
    ...new Set([...(suggested === null ? [] : [suggested]), ...likely, 'keep', ...possible]),
  ].map((answer) => ({
    answer,
    label: answerLabel(answer),
  }));
  const answer = asker.ask({
    id,
    file: table.file,
    asks:
      likeliest === null || suggested === null
        ? `What does the column "${name}" hold?`
        : `Does the column "${name}" hold ${answerLabel(suggested)}?`,
    examples,
    cells,
    suggested,
    choices,
  });
  const chosen = answer === null ? null : meaningNamed(answer);
  return { ...column, meaning: chosen, certainty: chosen === null ? certainty : 'certain' };
}

/** A column by its heading, or by its letter. */
export const columnName = ({ heading, index }: Pick<Column, 'heading' | 'index'>): string =>
  heading === '' ? `column ${letters(index)}` : heading;
/** What asks for a column's meaning, and what answers it. */
export const columnQuestion = (column: Pick<Column, 'heading' | 'index'>): string =>
  `column:${foldText(columnName(column))}`;

export const letters = (index: number): string =>
  (index < 26 ? '' : String.fromCharCode(64 + Math.floor(index / 26))) +
  String.fromCharCode(65 + (index % 26));

function sample(table: SheetTable, index: number): { cells: string[]; count: number } {
  const cells: string[] = [];
  let count = 0;
  for (const { cells: row } of table.rows) {
    const cell = (row[index] ?? '').trim();
    if (cell === '') continue;
    count++;
    if (cells.length < SAMPLE && !saysNothing(cell)) cells.push(cell);
  }
  return { cells, count };
}

/** Candidates of a heading; an empty heading beside 'Foot length L/R' is the second of the two. */
function candidatesAt(table: SheetTable, index: number, heading: string): readonly Candidate[] {
  const next = table.headings[index + 1];
  const before = table.headings[index - 1];
  const pairOf = (text: string) =>
    headingCandidates(text).find(
      (c) =>
        c.meaning.kind === 'reading' && (c.meaning.side === 'left-right' || c.meaning.side === 'right-left'),
    );
  const split = (c: Candidate, second: boolean): Candidate => {
    const m = c.meaning as Extract<Meaning, { kind: 'reading' }>;
    const leftFirst = m.side === 'left-right';
    return { ...c, meaning: { ...m, side: leftFirst === second ? 'right' : 'left' } };
  };
  const beside = (at: number) => table.rows.some(({ cells }) => (cells[at] ?? '') !== '');
  if (heading !== '' && next === '' && beside(index + 1)) {
    const pair = pairOf(heading);
    if (pair) return [split(pair, false)];
  }
  if (heading === '' && before && beside(index)) {
    const pair = pairOf(before);
    if (pair) return [split(pair, true)];
  }
  return heading === '' ? [] : headingCandidates(heading);
}

/** 'Cast 2', or the second 'Cast' of a row with two devices: which of several of its kind a column is. */
export function ordinal(headings: readonly string[], index: number): number {
  const heading = headings[index];
  const said = /(?<![\d./-])([1-9])(?:st|nd|rd|th|er|e|\.)?(?![\d./-])/.exec(heading)?.[1];
  if (said !== undefined) return Number(said);
  return headings.slice(0, index).filter((other) => foldText(other) === foldText(heading)).length + 1;
}

function uniqueKey(meaning: Meaning, which = 1): string | null {
  if (meaning.kind === 'field') {
    if (meaning.field.startsWith('device.') || meaning.field === 'side')
      return `${meaning.field} ${meaning.side} ${meaning.family} ${which}`;
    return REPEATABLE.has(meaning.field) && meaning.field !== 'visit.date' && meaning.field !== 'visit.age'
      ? null
      : meaning.field === 'visit.date'
        ? null
        : meaning.field;
  }
  if (meaning.kind === 'reading') return `reading ${meaning.measure} ${meaning.side}`;
  return null;
}

const essence = (m: Meaning): string => (m.kind === 'reading' ? `${m.measure} ${m.side}` : meaningText(m));

/** Several visits in one row: a visit's date followed by sizes, more than once; or dates in the headings. */
function repeatedVisits(
  table: SheetTable,
  scored: readonly { index: number; candidate: Candidate; score: number }[],
): boolean {
  const dates = new Set(
    scored
      .filter(
        (s) =>
          s.candidate.meaning.kind === 'field' && s.candidate.meaning.field === 'visit.date' && s.score > 0.6,
      )
      .map((s) => s.index),
  );
  return (
    dates.size > 1 ||
    table.headings.some((h) => headingDate(h) !== null) ||
    table.headings.some((h) => /\d/.test(h))
  );
}

/** The date inside a heading: 'Foot L 12/03/2024'. */
export function headingDate(heading: string): string | null {
  return (
    /\d{4}-\d{2}-\d{2}|\b\d{1,2}[-/.]\d{1,2}[-/.]\d{2,4}\b|\b\d{1,2}[-/.]\d{4}\b|\b\p{L}{3,9}\.? ?\d{4}\b/u.exec(
      heading,
    )?.[0] ?? null
  );
}

/** Languages whose words the headings have; the ones with most of them. */
export function sheetLanguages(table: Pick<SheetTable, 'headings'>): Language[] {
  const count = new Map<Language, number>(languages.map((l) => [l, 0]));
  for (const heading of table.headings) {
    const best = headingCandidates(heading)[0];
    if (!best || best.languages.length === languages.length) continue;
    const top = headingCandidates(heading).filter((c) => c.strength > best.strength - 0.03);
    for (const l of new Set(top.flatMap((c) => c.languages))) count.set(l, (count.get(l) ?? 0) + 1);
  }
  const most = Math.max(...count.values());
  if (most === 0) return [...languages];
  return languages.filter((l) => (count.get(l) ?? 0) >= most * 0.8);
}
