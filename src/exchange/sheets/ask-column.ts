import { isField, type Meaning, meaningNamed, meaningText } from '../headings/meaning.js';
import { answerLabel } from '../headings/meaning-label.js';
import { type AlikeColumns, alikeColumns } from './alike-columns.js';
import { sideIn, sideWordIn } from './cell-words.js';
import { type Column, columnName, columnQuestion } from './column.js';
import type { SheetTable } from './grid.js';
import type { Asker } from './questions.js';
import { uniqueKey } from './unique-key.js';
import { fieldByValues, holdsNotes, valueChoices } from './value-choices.js';

const WHO = /^child\.(?:id|name|first_name|last_name)$/;

/** What a column is asked about with: its cells, what the others are (`taken`), and the day each is of. */
interface AskedOf {
  readonly values: readonly string[];
  readonly taken: ReadonlySet<string | null>;
  readonly day: (index: number) => string;
  readonly table: SheetTable;
  readonly asker: Asker;
  readonly today: string;
}

/** The clinic's own answer for a column, else what is certain or has no rival; any other is asked. */
export function askColumn(read: Column, of: AskedOf): Column {
  const { table, asker, values, today, day } = of;
  const column = orDiagnoses(read, of);
  const { cells, examples, certainty, meaning } = column;
  if (cells === 0) return { ...column, meaning: certainty === 'certain' ? meaning : null };
  const alike = alikeColumns(column, table, day);
  const id = alike?.question ?? columnQuestion(column);
  const named = answered(column, id, asker, table.file);
  if (named) return { ...column, meaning: named, certainty: 'certain' };
  if (certainty === 'certain' || certainty === 'likely') return column;
  const notes = holdsNotes(values, today);
  const byValues = meaning === null ? unusedByValues(column, of) : null;
  const kept = (notes || values.every(isCode)) && isSomeoneNamed(of);
  const unasked = withoutQuestion(column, byValues, kept);
  if (unasked !== null) return { ...column, ...unasked };
  const likeliest = meaning ?? byValues;
  const suggested = likeliest === null ? null : forAll(meaningText(likeliest), alike);
  const answer = asker.ask({
    id,
    file: table.file,
    asks: wording(column, alike, suggested),
    examples,
    cells,
    suggested,
    choices: choicesFor(column, alike, suggested, notes && column.heading !== '', of),
  });
  const chosen = meaningOf(answer, column);
  return { ...column, meaning: chosen, certainty: chosen === null ? certainty : 'certain' };
}

/** A column that would only be kept, over cells that name diagnoses: those. */
function orDiagnoses(column: Column, { values, today }: AskedOf): Column {
  const meaning = column.meaning?.kind === 'keep' ? fieldByValues(values, today) : null;
  return isField(meaning, 'child.conditions') ? { ...column, meaning, certainty: 'likely' } : column;
}

/** What an answer means of this column: one for both sides leaves the side to the heading. */
function meaningOf(answer: string | null, { heading }: Column): Meaning | null {
  const meaning = answer === null ? null : meaningNamed(answer);
  const side = sideIn(sideWordIn(heading) ?? '');
  if (side === null || meaning === null) return meaning;
  if (meaning.kind === 'reading') return meaning.side === 'row' ? { ...meaning, side } : meaning;
  return meaning.kind === 'field' && meaning.field.startsWith('device.') ? { ...meaning, side } : meaning;
}

/** The clinic's own answer for this column, else the one for all columns like it. */
function answered(column: Column, alike: string, asker: Asker, file: string): Meaning | null {
  const own = columnQuestion(column);
  const known = asker.known(own, file) === null ? alike : own;
  const said = asker.known(known, file);
  const named = known !== own || said === null ? meaningOf(said, column) : meaningNamed(said);
  if (named) asker.used.set(known, said ?? '');
  return named;
}

/** 'UR 10442': another number of somebody who is named. */
const isCode = (cell: string): boolean => /^\p{Lu}{1,4}[\s-]?\d{3,}$/u.test(cell);
const isSomeoneNamed = ({ taken }: AskedOf): boolean => [...taken].some((key) => WHO.test(key ?? ''));

/** What is told or kept instead of asked: of values that speak for one field alone, of words and codes that no field is left for. */
function withoutQuestion(
  { heading, meaning }: Column,
  byValues: Meaning | null,
  areNotes: boolean,
): Pick<Column, 'meaning' | 'certainty'> | null {
  // Without any heading, and where nobody is named yet, words may be the children's names.
  if (byValues !== null && heading !== '' && !WHO.test(meaningText(byValues)))
    return { meaning: byValues, certainty: 'likely' };
  const words = meaning === null && byValues === null && areNotes;
  return words ? { meaning: { kind: 'keep' }, certainty: 'certain' } : null;
}

/** What the values alone speak for, where no other column is it. */
function unusedByValues({ heading }: Column, of: AskedOf): Meaning | null {
  const { values, taken, today } = of;
  const byValues = fieldByValues(values, today, heading !== '' && !isSomeoneNamed(of));
  return byValues !== null && !taken.has(uniqueKey(byValues)) ? byValues : null;
}

/** An answer for columns of both sides says none. */
const forAll = (answer: string, alike: AlikeColumns | null): string =>
  alike?.sided ? answer.replace(/ (?:left|right)\b/, '') : answer;

function choicesFor(
  column: Column,
  alike: AlikeColumns | null,
  suggested: string | null,
  notes: boolean,
  of: AskedOf,
) {
  const { heading, meaning, candidates } = column;
  const { values, taken, today } = of;
  const likely = candidates.map((c) => meaningText(c.meaning));
  const possible = meaning === null ? valueChoices(values, today, heading, taken) : [];
  const first = suggested === null ? likely : [suggested, ...likely];
  const all = [...first, 'keep', ...(notes ? ['remark', 'remark skin'] : []), ...possible];
  const answers = new Set(all.map((answer) => forAll(answer, alike)));
  return [...answers].map((answer) => ({ answer, label: answerLabel(answer) }));
}

function wording(column: Column, alike: AlikeColumns | null, suggested: string | null): string {
  const name = alike?.names ?? `"${columnName(column)}"`;
  if (suggested === null) return `What ${alike ? 'do the columns' : 'does the column'} ${name} hold?`;
  return `${alike ? 'Do the columns' : 'Does the column'} ${name} hold ${answerLabel(suggested)}?`;
}
