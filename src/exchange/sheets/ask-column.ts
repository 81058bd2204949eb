import { foldText } from '../headings/fold-words.js';
import { type Meaning, meaningNamed, meaningText } from '../headings/meaning.js';
import { answerLabel } from '../headings/meaning-label.js';
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

/** The clinic's own answer for a column, else what is certain; a probable or unknown one is asked. */
export function askColumn(read: Column, of: AskedOf): Column {
  const { table, asker, taken, values, today, day } = of;
  const someone = [...taken].some((key) => WHO.test(key ?? ''));
  const byValues = spokenFor(read, of, someone);
  const column = orDiagnoses(read, byValues);
  const { cells, examples, certainty, meaning } = column;
  if (cells === 0) return { ...column, meaning: certainty === 'certain' ? meaning : null };
  const alike = numberedAlike(column, table, day);
  const name = alike.join('", "') || columnName(column);
  const id = alike.length > 0 ? `column:${pattern(column.heading)}` : columnQuestion(column);
  const named = answered(column, id, asker, table.file);
  if (named) return { ...column, meaning: named, certainty: 'certain' };
  if (certainty === 'certain') return column;
  // Words under a heading nobody knows are remarks; without any heading they may be the children's names.
  const keptUnasked = column.heading !== '' && holdsNotes(values, today);
  const likeliest = meaning ?? unlessTaken(byValues, taken);
  // Words that no field is left for are kept beside the row: there is nothing to ask.
  if (likeliest === null && keptUnasked && someone)
    return { ...column, meaning: { kind: 'keep' }, certainty: 'certain' };
  // 'Device & cast date' over devices.
  if (meaning === null && likeliest !== null && sameRecord(likeliest, column))
    return { ...column, meaning: likeliest, certainty: 'certain' };
  const suggested = likeliest === null ? null : meaningText(likeliest);
  const answer = asker.ask({
    id,
    file: table.file,
    asks: wording(alike.length > 0, name, suggested),
    examples,
    cells,
    suggested,
    choices: choicesFor(column, suggested, keptUnasked, of),
  });
  const chosen = meaningOf(answer);
  return { ...column, meaning: chosen, certainty: chosen === null ? certainty : 'certain' };
}

/** What the values alone speak for, where the heading leaves it open. */
const spokenFor = ({ meaning, heading }: Column, of: AskedOf, someone: boolean): Meaning | null =>
  meaning === null || meaning.kind === 'keep'
    ? fieldByValues(of.values, of.today, heading !== '' && !someone)
    : null;

const unlessTaken = (byValues: Meaning | null, taken: AskedOf['taken']): Meaning | null =>
  byValues !== null && !taken.has(uniqueKey(byValues)) ? byValues : null;

/** A column that would only be kept, over cells that name diagnoses: probably those. */
const orDiagnoses = (column: Column, byValues: Meaning | null): Column =>
  column.meaning?.kind === 'keep' && byValues !== null && meaningText(byValues) === 'child.conditions'
    ? { ...column, meaning: byValues, certainty: 'probable' }
    : column;

const meaningOf = (answer: string | null): Meaning | null => (answer === null ? null : meaningNamed(answer));

/** The clinic's own answer for this column, else the one for all columns like it. */
function answered(column: Column, alike: string, asker: Asker, file: string): Meaning | null {
  const own = columnQuestion(column);
  const known = asker.known(own, file) === null ? alike : own;
  const said = asker.known(known, file);
  const named = meaningOf(said);
  if (named) asker.used.set(known, said ?? '');
  return named;
}

function choicesFor(column: Column, suggested: string | null, notes: boolean, of: AskedOf) {
  const { heading, meaning, candidates } = column;
  const { values, taken, today } = of;
  const likely = candidates.map((c) => meaningText(c.meaning));
  const possible = meaning === null ? valueChoices(values, today, heading, taken) : [];
  const first = suggested === null ? likely : [suggested, ...likely];
  const answers = new Set([...first, 'keep', ...(notes ? ['remark', 'remark skin'] : []), ...possible]);
  return [...answers].map((answer) => ({ answer, label: answerLabel(answer) }));
}

function wording(several: boolean, name: string, suggested: string | null): string {
  if (suggested === null) return `What ${several ? 'do the columns' : 'does the column'} "${name}" hold?`;
  return `${several ? 'Do the columns' : 'Does the column'} "${name}" hold ${answerLabel(suggested)}?`;
}

/** Do the heading's own words speak of a device, as the values do? */
const sameRecord = (byValues: Meaning, { candidates }: Column): boolean =>
  meaningText(byValues) === 'device.family' &&
  candidates.some(({ meaning }) => meaningText(meaning).startsWith('device.'));

const pattern = (heading: string): string => foldText(heading).replace(/\d+/g, '#');

/**
 * Columns whose headings differ by a number or a date only and that are of different days, 'L/R 1' and 'L/R 2': one
 * question asks for them all. Two of one day, 'Diag 1' and 'Diag 2', are different sizes.
 */
function numberedAlike({ heading }: Column, table: SheetTable, day: (index: number) => string): string[] {
  const own = pattern(heading);
  if (!/\p{L}/u.test(own) || !own.includes('#')) return [];
  const alike = table.headings.flatMap((other, index) => (pattern(other) === own ? [index] : []));
  const days = new Set(alike.map(day));
  return alike.length > 1 && days.size === alike.length ? alike.map((index) => table.headings[index]) : [];
}
