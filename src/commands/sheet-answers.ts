import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { z } from 'zod';
import { DoorpostError } from '../errors.js';
import type { ParsedCaseload } from '../exchange/parse-caseload.js';
import type { Answers, Question } from '../exchange/sheets/questions.js';
import { counted } from '../records/counted.js';
import { wrap } from './terminal.js';

const answersFile = z.object({ answers: z.record(z.string(), z.string().nullable()) });

/** The clinic's answers out of a file; none where there is no file yet. */
export function readAnswers(path: string | undefined): Answers {
  if (path === undefined || !existsSync(path)) return {};
  try {
    const { answers } = answersFile.parse(JSON.parse(readFileSync(path, 'utf8')));
    return Object.fromEntries(
      Object.entries(answers).filter(
        (entry): entry is [string, string] => entry[1] !== null && entry[1] !== '',
      ),
    );
  } catch {
    throw new DoorpostError('invalid-file', `${path} is no file of answers`, {
      file: path,
      accepted: '{ "answers": { "column:foot l": "foot_length left cm" } } as JSON',
    });
  }
}

/** Keeps the answers that were used, and puts every open question beside them with null, to be filled in. */
export function keepAnswers(
  path: string,
  { used, questions }: Pick<ParsedCaseload, 'used' | 'questions'>,
): void {
  const answers: Record<string, string | null> = { ...readAnswers(path), ...used };
  for (const { id } of questions) answers[id] ??= null;
  const asked = Object.fromEntries(
    questions.map((q) => [
      q.id,
      { asks: q.asks, examples: q.examples, suggested: q.suggested, choices: q.choices.map((c) => c.answer) },
    ]),
  );
  writeFileSync(path, `${JSON.stringify({ answers, asked }, null, 2)}\n`);
}

/** The questions about a sheet with what answers each. */
export function printQuestions(questions: readonly Question[], print: (text: string) => void): void {
  if (questions.length === 0) return;
  const likely = questions.filter((q) => q.suggested !== null).length;
  print(
    `\n${counted(questions.length, 'question')} about the sheet; what hangs on them was not taken yet.` +
      `${likely > 0 ? ` --yes takes the likely answer of ${likely}.` : ''} --reading FILE gives and keeps the answers.`,
  );
  for (const { id, asks, examples, cells, suggested, choices } of questions) {
    print(
      wrap(
        `- ${asks} (${counted(cells, 'cell')}${examples.length > 0 ? `, such as ${examples.slice(0, 3).join('; ')}` : ''})`,
        110,
        '  ',
      ),
    );
    const [likely, others] = [
      choices.filter((c) => c.answer === suggested),
      choices.filter((c) => c.answer !== suggested),
    ];
    const answers = [
      ...likely.map(({ answer }) => `${answer} (likely)`),
      ...others.map(({ answer }) => answer),
    ];
    print(wrap(`"${id}": ${answers.join(' | ') || 'a date as YYYY-MM-DD'}`, 110, '    '));
  }
}
