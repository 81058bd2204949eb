import { isDeepStrictEqual } from 'node:util';
import type { IsoDate } from '../../records/dates.js';
import type { FitRules } from '../../rules/fit-rule.js';
import type { RefusedRow } from '../refused-row.js';
import { answerChoices } from './answer-choices.js';
import { type ColumnOrder, WAITS_FOR_ORDER } from './choose-dates.js';
import { type Column, cellOf } from './column.js';
import type { GridRow, SheetTable } from './grid.js';
import { LeftOver } from './left-over.js';
import { type Asked, type Asker, isLeftOut } from './questions.js';

/** What an import is read with, and where it asks and tells. */
export interface Desk {
  readonly today: IsoDate;
  readonly rules: FitRules;
  readonly asker: Asker;
  readonly refused: RefusedRow[];
  readonly notices: string[];
  readonly doubtful: RefusedRow[];
}

type AskedHere = Omit<Asked, 'file' | 'cells' | 'choices'> &
  Partial<Pick<Asked, 'cells' | 'choices'>> & {
    /** The cell that waits for the answer, or stays out by it: it is not lost unsaid. */
    readonly at?: readonly [GridRow, Column];
  };

/** A table with its columns taken and their dates ordered. */
export class TakenTable {
  readonly left = new LeftOver();
  /** Remarks that devices were made of, by their words. */
  readonly heard = new Set<string>();
  /** Its children's birth dates are reckoned from their ages, which then date nothing. */
  reckoned = false;
  constructor(
    readonly table: SheetTable,
    readonly columns: readonly Column[],
    readonly orders: ReadonlyMap<number, ColumnOrder>,
    readonly desk: Desk,
  ) {}

  get file(): string {
    return this.table.file;
  }

  refuse(row: GridRow, column: Column | null, why: string, accepted: string, given?: string): void {
    if (column !== null) {
      this.left.mark(row, column);
      this.left.tell(row, column, given ?? cellOf(row, column));
    }
    if (why === WAITS_FOR_ORDER) return;
    const refused = this.placed(row, column, why, accepted, given);
    // Of a pair both sides are refused for the same.
    if (!isDeepStrictEqual(this.desk.refused.at(-1), refused)) this.desk.refused.push(refused);
  }

  /** A reading that is taken, for less. */
  doubt(row: GridRow, column: Column, given: string): void {
    const why = 'was written with a doubt and is taken as less sure';
    this.desk.doubtful.push(this.placed(row, column, why, '', given));
  }

  /** Tells what a person should know, once. */
  tell(text: string): void {
    const told = `${this.file}: ${text}`;
    if (!this.desk.notices.includes(told)) this.desk.notices.push(told);
  }

  /** Asks the clinic; of one cell, and with the answers its kind of question has, where nothing else is said. */
  ask({ at, ...asked }: AskedHere): string | null {
    const choices = asked.choices ?? answerChoices(asked.id, new Map());
    const answer = this.desk.asker.ask({ cells: 1, ...asked, choices, file: this.file });
    if (at) this.left.tell(...at, `${asked.id} ${asked.asks}`);
    if (at && isLeftOut(answer)) this.left.mark(...at);
    return answer;
  }

  private placed(
    row: GridRow,
    column: Column | null,
    why: string,
    accepted: string,
    given = column ? cellOf(row, column) : '',
  ): RefusedRow {
    return { file: this.file, row: row.row, column: column?.heading || 'row', given, why, accepted };
  }
}
