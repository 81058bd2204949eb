import { measureIds, measures } from '../../records/measure.js';
import { toBaseUnit } from '../../records/units.js';
import { foldText } from '../headings/fold-words.js';
import { fieldMeaning, type Meaning, meaningText } from '../headings/meaning.js';
import { cellDate } from './cell-date.js';
import { cellDiagnosis } from './cell-diagnosis.js';
import { cellSize } from './cell-size.js';
import { sideIn, sideWordIn } from './cell-words.js';
import { uniqueKey } from './unique-key.js';
import { usualSize } from './usual-size.js';
import { valueFit } from './value-fit.js';

const DATES = (['visit.date', 'child.birth_date', 'device.cast_date', 'device.fitted_date'] as const).map(
  fieldMeaning,
);
const WORDS = (
  ['child.name', 'child.id', 'child.sex', 'child.conditions', 'device.family', 'side'] as const
).map(fieldMeaning);

/** As many as somebody reads; whoever asks takes any other answer as well. */
const NEAREST = 5;

/** What a column nobody's heading explains may hold by its values, the nearest first; not what other columns are (`taken`). */
export function valueChoices(
  cells: readonly string[],
  today: string,
  heading: string,
  taken: ReadonlySet<string | null>,
): string[] {
  if (cells.length === 0) return [];
  const share = (test: (cell: string) => boolean) => cells.filter(test).length / cells.length;
  if (share((c) => cellDate(c, today) !== null && /\D/.test(c)) >= 0.8) return DATES.map(meaningText);
  const sizes = share((c) => cellSize(c) !== null) >= 0.8;
  const named = (sizes ? [fieldMeaning('child.id')] : WORDS).filter((m) => valueFit(m, cells, today) >= 0.8);
  const shoe = fieldMeaning('shoe.size');
  const shoes = sizes && cells.every((c) => Number(SHOE.exec(c)?.[0]) <= 47) && !taken.has(uniqueKey(shoe));
  return [
    ...(sizes ? readingChoices(cells, heading, taken) : []).slice(0, NEAREST),
    ...(shoes ? [shoe] : []),
    ...named,
  ].map(meaningText);
}
const SHOE = /^\d{1,2}(?![\d,])(?:\.5)?/;

/** 'Unterschenkellänge', 'Jambe', 'Onderbeenlengte': a height of the knee, which of them the clinic says. */
const LOWER_LEG = /unterschenkel|jambe|onderbeen|lower leg|shank|tibia|scheenbeen|pierna|gamba/;
const AT_KNEE = /^(?:knee_height|fibular_head_height)/;

/** Sizes that the values can be, of the side the heading says: first what a word of it is of, then what children of about seven have. */
function readingChoices(
  cells: readonly string[],
  heading: string,
  taken: ReadonlySet<string | null>,
): Meaning[] {
  const said = sideIn(sideWordIn(heading) ?? '');
  const near = LOWER_LEG.test(foldText(heading));
  const sizes = cells.flatMap((cell) => cellSize(cell)?.value ?? []).sort((a, b) => a - b);
  const middle = sizes[Math.floor(sizes.length / 2)] ?? 0;
  const far = ({ measure }: Reading) => {
    const usual = usualSize(measure, TYPICAL_AGE) ?? 1;
    const off = (['mm', 'cm', 'inch'] as const).map((unit) =>
      Math.abs(Math.log(toBaseUnit(middle, unit) / usual)),
    );
    return near && AT_KNEE.test(measure) ? -1 : Math.min(...off);
  };
  return measureIds
    .map((measure): Reading => {
      const side = measures[measure].sided ? (said ?? 'row') : 'none';
      return { kind: 'reading', measure, side, unit: null, at: null };
    })
    .filter((m) => !taken.has(uniqueKey(m)) && valueFit(m, cells, '') >= 0.9)
    .sort((a, b) => far(a) - far(b));
}
type Reading = Extract<Meaning, { kind: 'reading' }>;
const TYPICAL_AGE = 7;

/** Whether most of a column's cells are words: notes, that is, where the heading says nothing else. */
export const holdsNotes = (cells: readonly string[], today: string): boolean =>
  cells.length > 0 &&
  cells.filter((c) => /\p{L}{2}/u.test(c) && cellSize(c) === null && cellDate(c, today) === null).length >=
    cells.length * 0.6 &&
  cells.filter((c) => /\d/.test(c)).length <= cells.length * 0.3;

/** 'AIS R thoracic', 'SMA II' under 'Curve': cautions hang on a diagnosis, whatever stands above it. Some nobody has a word for. */
const nameDiagnoses = (cells: readonly string[]): boolean =>
  cells.length > 0 &&
  cells.filter((c) => c.length <= 60 && cellDiagnosis(c).conditions.length > 0).length >= cells.length * 0.6;

/** Words that only one field has: a column full of them holds that, whatever its heading. */
export function fieldByValues(cells: readonly string[], today: string, nobodyYet = false): Meaning | null {
  const several = cells.length > 1;
  const said = (['device.family', 'child.sex', 'side'] as const)
    .map(fieldMeaning)
    .find((m) => several && valueFit(m, cells, today) >= 0.9);
  if (said) return said;
  if (nameDiagnoses(cells)) return fieldMeaning('child.conditions');
  if (!several || !nobodyYet) return null;
  // A sheet of children without a column for them: different words of a name's length are the names.
  const name = fieldMeaning('child.name');
  const different = new Set(cells).size >= cells.length * 0.3 && cells.every((c) => c.length <= 40);
  return different && valueFit(name, cells, today) >= 0.9 ? name : null;
}
