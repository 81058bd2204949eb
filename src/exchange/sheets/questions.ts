/** How sure a reading of a sheet is: taken, taken once somebody agrees, or asked openly. */
export type Certainty = 'certain' | 'probable' | 'unknown';

/** What only the clinic can say, asked once a column or once a word. */
export interface Question {
  /** The same for the same heading or word in every sheet, so that an answer holds next month too: 'column:foot l'. */
  readonly id: string;
  readonly file: string;
  readonly asks: string;
  readonly examples: readonly string[];
  /** How many cells wait for the answer. */
  readonly cells: number;
  /** The likely answer, or null where a wrong guess would be worse than the question. */
  readonly suggested: string | null;
  readonly choices: readonly { readonly answer: string; readonly label: string }[];
}

/** A clinic's reading of its sheets: the answer by the question's id. */
export type Answers = Readonly<Record<string, string>>;

/** Collects questions; gives the clinic's answer where there is one, and the likely one where it may take it. */
export class Asker {
  private readonly open = new Map<string, Question>();
  /** What was taken on an answer or a likely answer. */
  readonly used = new Map<string, string>();
  constructor(
    private readonly answers: Answers,
    private readonly takeProbable: boolean,
  ) {}

  ask(question: Question): string | null {
    const given = Object.hasOwn(this.answers, question.id) ? this.answers[question.id] : null;
    const answer = given ?? (this.takeProbable ? question.suggested : null);
    if (answer !== null) {
      this.used.set(question.id, answer);
      return answer;
    }
    const before = this.open.get(question.id);
    this.open.set(question.id, before ? { ...question, cells: question.cells + before.cells } : question);
    return null;
  }

  /** An answer given before, without asking. */
  known(id: string): string | null {
    return Object.hasOwn(this.answers, id) ? this.answers[id] : null;
  }

  get questions(): Question[] {
    return [...this.open.values()];
  }
}
