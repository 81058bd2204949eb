import { measureIds } from '../../records/measure.js';
import { lengthUnits, massUnits } from '../../records/units.js';
import { answerLabel } from '../headings/meaning-label.js';

export interface Choice {
  readonly answer: string;
  readonly label: string;
}

const WORDS: Readonly<Record<string, string>> = {
  dmy: 'day first',
  mdy: 'month first',
  both: 'a pair, one for each side',
  affected: "the affected side of the child's diagnosis",
  leave: 'leave these out',
  each: 'each in the only unit it can be in',
  no: 'no, leave these out',
  two: 'no, they are two devices',
  apart: 'no, ask of each',
  last: 'no, of the last alone',
  ordered: 'no, they are still being made',
  'left-right': 'left, then right',
  'right-left': 'right, then left',
};
export const inShortWords = (answer: string): string => WORDS[answer] ?? answer;
export const choices = (answers: readonly string[]): Choice[] =>
  answers.map((answer) => ({ answer, label: inShortWords(answer) }));

/** What a question can be answered with, by what it is about; longer beginnings first. */
const BY_QUESTION: readonly (readonly [about: RegExp, answers: readonly string[]])[] = [
  [/^side-of:.*:two$/, ['left-right', 'right-left', 'leave']],
  [/^side-of:/, ['left', 'right', 'both', 'leave']],
  [/^side:/, ['both', 'left', 'right', 'affected', 'leave']],
  [/^dates:/, ['dmy', 'mdy']],
  [/^shoe:/, ['EU', 'UK', 'US', 'Mondopoint', 'leave']],
  [/^sex:/, ['female', 'male', 'unknown']],
  [/^same:/, ['yes', 'two']],
  [/^fit:/, ['yes', 'ordered']],
  [/^days:/, ['yes', 'last']],
  [/^(?:birth|cast|condition|remarks):|^visit:from-/, ['yes', 'no']],
];

/**
 * The answers to a kept question in words: of a device the families by their names. None for what a column holds or the
 * day of a sheet, which are told by `answerLabel` and checked by their own readers.
 */
export function answerChoices(question: string, familyNames: ReadonlyMap<string, string>): Choice[] {
  if (/^(?:device:|one-device$)/.test(question))
    return [...[...familyNames].map(([answer, label]) => ({ answer, label })), ...choices(['leave'])];
  if (question.startsWith('measure:'))
    return [...measureIds.map((answer) => ({ answer, label: answerLabel(answer) })), ...choices(['leave'])];
  const measure = /^unit:.*:([a-z_]+)$/.exec(question)?.[1];
  if (measure !== undefined) return choices([...(measure === 'weight' ? massUnits : lengthUnits), 'each']);
  return choices(BY_QUESTION.find(([about]) => about.test(question))?.[1] ?? []);
}

/** A kept answer as a person reads it: 'Solid AFO' and not 'solid-afo'. */
export const answerInWords = (
  question: string,
  answer: string,
  familyNames: ReadonlyMap<string, string>,
): string =>
  answerChoices(question, familyNames).find((choice) => choice.answer === answer)?.label ??
  answerLabel(answer);
