import { createHash } from 'node:crypto';
import { foldText } from '../headings/fold-words.js';

/** How sure a reading of a sheet is: taken, taken and told, taken once somebody agrees, or asked openly. */
export type Certainty = 'certain' | 'likely' | 'probable' | 'unknown';

/** What only the clinic can say, asked once a column or once a word. */
export interface Question {
  /** The same for the same heading or word in every sheet, so that an answer holds next month too: 'column:foot l'. */
  readonly id: string;
  readonly file: string;
  /** The sheet it belongs to, by its headings; empty for a word that means the same in every sheet of the clinic. */
  readonly sheet: string;
  readonly asks: string;
  readonly examples: readonly string[];
  /** How many cells wait for the answer. */
  readonly cells: number;
  /** The likely answer, or null where a wrong guess would be worse than the question. */
  readonly suggested: string | null;
  readonly choices: readonly { readonly answer: string; readonly label: string }[];
}

/** A question as it is put; the sheet is filled in. */
export type Asked = Omit<Question, 'sheet'>;

/** A clinic's reading of its sheets: the answer by the question's id, for one sheet as 'SHEET ID'. */
export type Answers = Readonly<Record<string, string>>;

/** Collects questions; gives the clinic's answer where there is one, and the likely one where it may take it. */
export class Asker {
  private readonly open = new Map<string, Question>();
  /** What was taken on an answer or a likely answer. */
  readonly used = new Map<string, string>();
  private readonly sheets = new Map<string, string>();
  /** How often nobody knew, or nobody wanted it taken: what waits for an answer is not lost unsaid. */
  unanswered = 0;
  constructor(
    private readonly answers: Answers,
    private readonly takeProbable: boolean,
  ) {}

  /** Which sheet a file holds: the same headings in any order are the same sheet. */
  meet(file: string, headings: readonly string[]): void {
    const words = [...new Set(headings.map(foldText))].filter((word) => word !== '').sort();
    this.sheets.set(file, createHash('sha256').update(words.join('\n')).digest('hex').slice(0, 12));
  }

  sheetOf(file: string): string {
    return this.sheets.get(file) ?? '';
  }

  ask(asked: Asked): string | null {
    const sheet = OF_WORDS.test(asked.id) ? '' : this.sheetOf(asked.file);
    const question = { ...asked, sheet };
    const given = this.known(asked.id, asked.file);
    const answer = given ?? (this.takeProbable ? question.suggested : null);
    if (isLeftOut(answer)) this.unanswered++;
    if (answer !== null) {
      this.used.set(question.id, answer);
      return answer;
    }
    const key = `${sheet} ${question.id}`;
    const before = this.open.get(key);
    this.open.set(key, before ? together(before, question) : question);
    return null;
  }

  /** Nothing is read of a sheet: nothing is asked of it either. */
  forget(file: string): void {
    for (const [key, question] of this.open) if (question.file === file) this.open.delete(key);
  }

  /** An answer given before, without asking: for this sheet, else for every one. */
  known(id: string, file: string): string | null {
    const own = `${this.sheetOf(file)} ${id}`;
    if (Object.hasOwn(this.answers, own)) return this.answers[own];
    return Object.hasOwn(this.answers, id) ? this.answers[id] : null;
  }

  /** Does a question about the day of measuring still wait for its answer? Then nothing is refused for want of a day. */
  waitsForDay(file: string): boolean {
    return this.questions.some(
      (q) =>
        q.file === file &&
        (q.id.startsWith('visit:') || q.suggested === 'visit.age' || q.suggested === 'visit.date'),
    );
  }

  get questions(): Question[] {
    return [...this.open.values()];
  }
}

/** As many examples as somebody reads. */
const EXAMPLES = 6;
const together = (before: Question, question: Question): Question => ({
  ...before,
  cells: question.cells + before.cells,
  examples: [...new Set([...before.examples, ...question.examples])].slice(0, EXAMPLES),
});

/** Does what was asked about stay out, for now or by the clinic's wish? */
export const isLeftOut = (answer: string | null): boolean =>
  answer === null || answer === 'leave' || answer === 'no';

/** Questions about a word and not about a column: one answer holds in every sheet. */
const OF_WORDS = /^(device|measure|side|sex|same):/;
