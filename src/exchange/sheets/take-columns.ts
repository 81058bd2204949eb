import { type Candidate, headingCandidates, likeliestMeaning } from '../headings/heading-meaning.js';
import { fieldMeaning, isField, type Meaning, meaningText } from '../headings/meaning.js';
import { ownMeanings } from '../headings/own-columns.js';
import { withoutVisitWords } from '../headings/visit-words.js';
import { languages } from '../headings/vocabulary.js';
import { headingDate } from '../headings/written-date.js';
import { askColumn } from './ask-column.js';
import { saidAge } from './cell-date.js';
import { cellDevices } from './cell-device.js';
import { cellPair } from './cell-size.js';
import { saysNothing } from './cell-words.js';
import { type Column, ordinal } from './column.js';
import { candidatesAt } from './column-candidates.js';
import {
  firstDated,
  isFirst,
  isOfDeviceDay,
  isOtherDay,
  isTryOn,
  type Scored,
  saysFirst,
} from './day-options.js';
import { isDenied } from './denied-columns.js';
import { openNameIn } from './device-names.js';
import type { SheetTable } from './grid.js';
import { numbersLines, standsForSeveral } from './lines-of-a-child.js';
import type { Asker, Certainty } from './questions.js';
import { dayOf, sameDayTwice, withoutDay } from './same-day.js';
import { sheetLanguages } from './sheet-languages.js';
import { uniqueKey } from './unique-key.js';
import { valueFit } from './value-fit.js';

const SAMPLE = 400;
/** What is less likely is asked about. */
const LEAST = 0.42;
const KEEP = { kind: 'keep' } as const;

/** What each column holds, decided over whole columns: heading, values and neighbours together. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: what is decided over all columns together, in the order of its certainty
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: what is decided over all columns together, in the order of its certainty
export function takeColumns(given: SheetTable, asker: Asker, today: string): Column[] {
  const table = { ...given, headings: withoutVisitWords(given.headings, isVisitDay) };
  const sampled = table.headings.map((_, index) => sample(table, index));
  const shown = table.headings.map((heading, index) => ({ heading, index, values: sampled[index] }));
  const language = sheetLanguages(table);
  const own = ownMeanings(table.headings);
  let scored: Scored[] = shown.flatMap(({ heading, index, values }) => {
    const ours = own.get(index);
    if (ours)
      return [
        { index, candidate: { meaning: ours, strength: 1, unknownWords: 0, languages }, fit: 1, score: 2 },
      ];
    const likely = withKinds(
      withAges(candidatesAt(table, index, heading), values.cells),
      heading,
      values.cells,
    );
    return likely.map((candidate) => {
      const fit = valueFit(candidate.meaning, values.cells, today);
      const spoken =
        candidate.languages.length === 0 || candidate.languages.some((l) => language.includes(l));
      return { index, candidate, fit, score: candidate.strength * (0.3 + 0.7 * fit) * (spoken ? 1 : 0.9) };
    });
  });
  const names = scored.filter((s) => isName(s.candidate.meaning) && s.fit >= 0.75);
  const measurers = new Set(scored.filter((s) => isObserver(s.candidate.meaning)).map((s) => s.index));
  for (const option of names) {
    // 'Initials' beside a column of children are whoever measured, and so is what stands by several birth dates.
    const others = names.filter((s) => s.index !== option.index);
    const measurer = measurers.has(option.index) && others.some((s) => !measurers.has(s.index));
    if (measurer || (others.length > 0 && standsForSeveral(table, option.index))) option.score *= 0.4;
  }
  // 'No' beside the children's names.
  const numbers = scored.filter((s) => s.candidate.meaning.kind === 'keep' && names.length > 0);
  for (const option of scored)
    if (
      isField(option.candidate.meaning, 'child.id') &&
      numbers.some((s) => s.index === option.index) &&
      numbersLines(table, option.index)
    )
      option.score *= 0.6;
  scored = scored.map((option) => {
    const denied = !own.has(option.index) && isDenied(table, option, sampled[option.index].cells, scored);
    return denied
      ? {
          ...option,
          candidate: { ...option.candidate, meaning: KEEP },
          fit: 1,
          score: Math.max(option.score, LEAST),
          denied,
        }
      : option;
  });
  scored = scored.filter((option) => !isOtherDay(table, option, scored));
  scored = scored.filter((option) => !isOfDeviceDay(option, scored));
  scored = scored.map((option) =>
    isTryOn(table, option, scored)
      ? { ...option, candidate: { ...option.candidate, meaning: KEEP } }
      : option,
  );
  for (const option of scored)
    if (saysFirst(option.candidate, table.headings[option.index], firstDated(table, option.index, scored)))
      option.score *= 0.5;
  scored.sort((a, b) => b.score - a.score || b.fit - a.fit || a.index - b.index);
  const taken = new Map<number, (typeof scored)[number]>();
  const used = new Set<string>();
  const repeats = repeatedVisits(table, scored) || table.headings.some((h, at) => h !== given.headings[at]);
  for (const option of scored) {
    if (taken.has(option.index) || option.fit < 0.25 || option.score < LEAST) continue;
    const key = uniqueKey(option.candidate.meaning, ordinal(table.headings, option.index));
    if (key !== null && used.has(key) && !(repeats && key.startsWith('reading'))) continue;
    if (key !== null) used.add(key);
    taken.set(option.index, option);
  }
  const meanings = [...taken].map(([index, { candidate }]) => ({ index, meaning: candidate.meaning }));
  const devices = meanings.some(
    ({ meaning }) => meaning.kind === 'device' || isField(meaning, 'device.family'),
  );
  const dated = meanings.some(({ meaning }) => isField(meaning, 'visit.date'));
  const twice = sameDayTwice(table, meanings);
  const day = dayOf(table, meanings);
  return shown.map(({ index, values }) => {
    const heading = given.headings[index];
    const option = taken.get(index);
    const candidates = scored.filter((s) => s.index === index).map((s) => s.candidate);
    const certainty = certaintyOf(option, scored, used, devices, dated);
    const base = {
      index,
      heading,
      nth: given.headings.slice(0, index).filter((other) => heading !== '' && other === heading).length + 1,
      candidates,
      cells: values.count,
      examples: values.cells.slice(0, 4),
      pairs: inPairs(values.cells),
    };
    const plain = option === undefined ? null : withoutDay(option.candidate.meaning, meanings);
    // 'Foot L allowance': beside a word nobody knows a size may be of anything; it is asked openly.
    const open = option?.candidate.meaning.kind === 'reading' && option.candidate.unknownWords > 0;
    // 'Height at start' of no day of its own is asked openly as well.
    const undated =
      option?.candidate.meaning.kind === 'keep' &&
      isFirst(heading) &&
      candidates.some((c) => c.meaning.kind === 'reading');
    const likely =
      open || undated || twice.get(index) === null
        ? null
        : (twice.get(index) ?? plain ?? option?.candidate.meaning ?? null);
    const sure = likely === null ? 'unknown' : certainty;
    // Written as our own tables are, a slip is asked about.
    const asked = plain !== null || twice.has(index) || (sure === 'likely' && heading.includes('_'));
    const settled = asked && sure !== 'unknown' ? 'probable' : sure;
    const of = { values: values.cells, taken: used, day, table, asker, today };
    return askColumn({ ...base, meaning: likely, certainty: settled }, of);
  });
}

/** How sure a column's meaning is, by its own words and values and by what else they could mean. */
function certaintyOf(
  option: Scored | undefined,
  scored: readonly Scored[],
  used: ReadonlySet<string>,
  devices: boolean,
  dated: boolean,
): Certainty {
  if (option === undefined) return 'unknown';
  // Told.
  if (option.denied) return 'likely';
  const { fit, candidate } = option;
  const { meaning, strength } = candidate;
  const rival = rivalOf(option, scored);
  const settled =
    rival !== undefined &&
    (isHarmless(meaning, rival.candidate.meaning) ||
      // 'Status' in a list of children and no devices.
      (isField(meaning, 'child.status') && !devices));
  const close = rival !== undefined && !settled && isClose(option, rival, used);
  const clear =
    meaning.kind === 'keep' ||
    // An age beside the day of the visit decides nothing; nor does whose number a number is.
    (dated && isField(meaning, 'visit.age') && fit >= 0.75) ||
    settled ||
    // Cells that name devices are devices, whatever the heading calls them.
    (isField(meaning, 'device.family') && fit >= 0.95) ||
    (strength >= 0.85 && fit >= 0.75) ||
    (strength >= 0.9 && fit >= 0.45);
  if (clear && !close) return 'certain';
  // Nothing else it could be: told, and changed on the page where it is wrong.
  return !close && fit >= 0.75 && candidate.unknownWords === 0 ? 'likely' : 'probable';
}

/** The likeliest other meaning of a column that would be read otherwise. */
const rivalOf = ({ index, candidate }: Scored, scored: readonly Scored[]): Scored | undefined =>
  scored.find(
    (s) =>
      s.index === index &&
      s.candidate !== candidate &&
      essence(s.candidate.meaning) !== essence(candidate.meaning) &&
      !saysLess(s.candidate.meaning, candidate.meaning),
  );

/** Whether a rival is nearly as likely, and no other column is it. */
const isClose = (option: Scored, rival: Scored, used: ReadonlySet<string>): boolean =>
  rival.score > option.score - 0.03 &&
  rival.fit >= 0.8 &&
  !(uniqueKey(rival.candidate.meaning) !== null && used.has(uniqueKey(rival.candidate.meaning) ?? ''));

const inPairs = (cells: readonly string[]): boolean =>
  cells.length > 1 && cells.filter((cell) => cellPair(cell) !== null).length > cells.length / 2;

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

const isSize = (heading: string): boolean => likeliestMeaning(heading)?.kind === 'reading';
/** 'Lt foot' with 'Lt' taken for an idle word: the same size with less said of it is no rival. */
const saysLess = (less: Meaning, more: Meaning): boolean =>
  less.kind === 'reading' && more.kind === 'reading' && less.measure === more.measure && less.side === 'row';
/** 'Seen at' over '6 wks' and '7/12': the ages of the visits. */
function withAges(candidates: readonly Candidate[], cells: readonly string[]): readonly Candidate[] {
  const ages = cells.filter((cell) => saidAge(cell) !== null || /^\d{1,2}\/(?:12|52)$/.test(cell));
  if (ages.length < cells.length * 0.8 || !ages.some((cell) => saidAge(cell) !== null)) return candidates;
  return candidates.map((candidate) =>
    isField(candidate.meaning, 'visit.date')
      ? { ...candidate, meaning: fieldMeaning('visit.age') }
      : candidate,
  );
}

/** 'EVO' over 'bdz scharnier' and 're vast': not whether there is one but which. */
function withKinds(
  candidates: readonly Candidate[],
  heading: string,
  cells: readonly string[],
): readonly Candidate[] {
  const name = openNameIn(heading);
  const says = (cell: string) =>
    cellDevices(`${name} ${cell}`).every(({ family }) => family !== null && !family.includes('|'));
  if (name === null || cells.length === 0 || cells.filter(says).length < cells.length * 0.6)
    return candidates;
  return candidates.map((candidate) =>
    candidate.meaning.kind === 'device' && candidate.meaning.side === null
      ? { ...candidate, meaning: fieldMeaning('device.family') }
      : candidate,
  );
}

/** Two readings of a column between which the values have decided: a child by number or by name, a number of the child or of the line. */
const isHarmless = (a: Meaning, b: Meaning): boolean =>
  [a, b].every((m) => m.kind === 'keep' || isField(m, 'child.id') || isName(m) || isObserver(m)) &&
  [a, b].some((m) => isField(m, 'child.id') || isName(m));
const essence = (m: Meaning): string => (m.kind === 'reading' ? `${m.measure} ${m.side}` : meaningText(m));

const isVisitDay = (heading: string): boolean =>
  headingCandidates(heading).some(({ meaning }) => /^visit\.(?:date|age)$/.test(meaningText(meaning)));
const isName = (m: Meaning): boolean => isField(m, 'child.name');
const isObserver = (m: Meaning): boolean => isField(m, 'visit.observer');

/** Several visits in one row: a visit's date followed by sizes, more than once; or dates in the headings. */
function repeatedVisits(
  table: SheetTable,
  scored: readonly { index: number; candidate: Candidate; score: number }[],
): boolean {
  const dates = new Set(
    scored.filter((s) => isField(s.candidate.meaning, 'visit.date') && s.score > 0.6).map((s) => s.index),
  );
  return (
    dates.size > 1 ||
    table.headings.some((h) => headingDate(h) !== null) ||
    table.headings.some((h) => /\d/.test(h)) ||
    // 'Foot L' before the day of the visit and again after it.
    table.headings.some((h, at) => h !== '' && table.headings.indexOf(h) < at && isSize(h))
  );
}
