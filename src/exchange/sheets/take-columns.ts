import { type MeasureId, measures } from '../../records/measure.js';
import { lengthUnits, massUnits, toBaseUnit } from '../../records/units.js';
import { foldText } from '../headings/fold-words.js';
import { type Candidate, headingCandidates } from '../headings/heading-meaning.js';
import { type Meaning, meaningNamed, meaningText } from '../headings/meaning.js';
import { answerLabel } from '../headings/meaning-label.js';
import { ownMeanings } from '../headings/own-columns.js';
import { wordSet } from '../headings/phrase-table.js';
import { type Language, languages } from '../headings/vocabulary.js';
import { cellAge, cellDate } from './cell-date.js';
import { cellDevices } from './cell-device.js';
import { cellPair, cellSize } from './cell-size.js';
import { bothWords, leftWords, noWords, rightWords, saysNothing, wordIn, yesWords } from './cell-words.js';
import type { SheetTable } from './grid.js';
import type { Asker, Certainty } from './questions.js';
import { canBe } from './usual-size.js';

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
const sexWords = new Set([
  ...wordSet((v) => v.female),
  ...wordSet((v) => v.male),
  'u',
  'x',
  'unknown',
  'other',
]);

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
    const key = uniqueKey(option.candidate.meaning);
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
    return answered({ ...base, meaning: option?.candidate.meaning ?? null, certainty }, table, asker);
  });
}

/** The clinic's own answer for a column, else what is certain; a probable or unknown one is asked. */
function answered(column: Column, table: SheetTable, asker: Asker): Column {
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
  const suggested = meaning === null ? null : meaningText(meaning);
  const choices = [...new Set([...column.candidates.map((c) => meaningText(c.meaning)), 'keep'])].map(
    (answer) => ({ answer, label: answerLabel(answer) }),
  );
  const answer = asker.ask({
    id,
    file: table.file,
    asks:
      suggested === null
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

function uniqueKey(meaning: Meaning): string | null {
  if (meaning.kind === 'field') {
    if (meaning.field.startsWith('device.') || meaning.field === 'side')
      return `${meaning.field} ${meaning.side} ${meaning.family}`;
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

const share = (cells: readonly string[], test: (cell: string) => boolean): number =>
  cells.length === 0 ? 0.8 : cells.filter(test).length / cells.length;

/** How many of a column's values can be what the heading says, 0 to 1. */
export function valueFit(meaning: Meaning, cells: readonly string[], today: string): number {
  const isDate = (c: string) => cellDate(c, today) !== null;
  const word = (set: ReadonlySet<string>) => (c: string) => set.has(foldText(c));
  switch (meaning.kind) {
    case 'keep':
      return 0.9;
    case 'device-size':
      return 1;
    case 'reading':
      return readingFit(meaning.measure, meaning.side, meaning.unit, cells);
    case 'device':
      return share(
        cells,
        (c) =>
          isDate(c) ||
          word(leftWords)(c) ||
          word(rightWords)(c) ||
          word(bothWords)(c) ||
          word(yesWords)(c) ||
          word(noWords)(c),
      );
  }
  const field = meaning.field;
  if (field.endsWith('_date') || field === 'visit.date' || field === 'marker.menarche')
    return share(cells, isDate);
  switch (field) {
    case 'child.sex':
      return share(cells, word(sexWords));
    case 'child.name':
    case 'child.first_name':
    case 'child.last_name':
      return share(cells, (c) => /\p{L}{2}/u.test(c) && !isDate(c));
    case 'child.id':
      return (
        share(
          cells,
          (c) =>
            c.length <= 40 &&
            !/^\d{1,2}[./-]\d{1,2}[./-]\d{2,4}$/.test(c) &&
            !/\p{L}{3,}[, ]+\p{L}{3,}/u.test(c),
        ) * (new Set(cells).size > cells.length * 0.1 || cells.length < 5 ? 1 : 0.7)
      );
    case 'visit.age':
    case 'marker.bone_age':
      return share(cells, (c) => cellAge(c) !== null);
    case 'child.gestation_weeks':
      return share(cells, (c) => /^\D*(2[2-9]|3\d|4[0-4])\b/.test(c) || /term/i.test(c));
    case 'side':
    case 'child.affected_side':
      return share(cells, (c) => word(leftWords)(c) || word(rightWords)(c) || word(bothWords)(c));
    case 'device.family':
      return Math.min(1, share(cells, (c) => cellDevices(c).some((d) => d.family !== null)) * 1.15);
    case 'device.verdict':
      return Math.max(
        0.3,
        share(cells, (c) => wordIn(c, (v) => v.verdicts) !== null),
      );
    case 'device.status':
      return share(cells, (c) => wordIn(c, (v) => v.deviceStates) !== null);
    case 'child.status':
      return share(cells, (c) => wordIn(c, (v) => v.childStates) !== null);
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
      return share(cells, (c) => /\p{L}/u.test(c));
    default:
      return share(cells, (c) => !isDate(c) || /\p{L}/u.test(c));
  }
}

function readingFit(measure: MeasureId, side: string, unit: string | null, cells: readonly string[]): number {
  const units = measures[measure].unit === 'kg' ? massUnits : lengthUnits;
  const pair = side === 'left-right' || side === 'right-left' || side === 'row';
  const fits = (cell: string): boolean => {
    const size = cellSize(cell);
    if (size) {
      const own = size.unit ?? unit;
      return (
        units.some((u) => (own === null || own === u) && canBe(measure, toBaseUnit(size.value, u), null)) ||
        units.some((u) => canBe(measure, toBaseUnit(size.value, u), null))
      );
    }
    return pair && cellPair(cell) !== null;
  };
  return share(cells, fits);
}
