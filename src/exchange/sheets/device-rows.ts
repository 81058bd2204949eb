import type { IsoDate } from '../../records/dates.js';
import { addDaysIso } from '../../records/dates.js';
import type { FitRules } from '../../rules/fit-rule.js';
import { contentId } from '../csv/read-rows.js';
import { foldText } from '../headings/fold-words.js';
import type { FieldId } from '../headings/vocabulary.js';
import type { RefusedRow } from '../refused-row.js';
import type { MadeRow } from './canonical.js';
import { cellDate } from './cell-date.js';
import { cellDevices, type DeviceSide, type SpokenDevice } from './cell-device.js';
import {
  bothWords,
  leftWords,
  noWords,
  rightWords,
  saysNothing,
  sideIn,
  wordIn,
  yesWords,
} from './cell-words.js';
import { dateOf } from './choose-dates.js';
import type { GridRow } from './grid.js';
import type { Person } from './people.js';
import type { Asker } from './questions.js';
import { cellOf, fieldColumns, refusal, type TakenTable } from './sheet-rows.js';
import type { Column } from './take-columns.js';

/** Days from cast to fitting where a sheet has only the fitting: about three weeks (common practice, no source). */
const DAYS_TO_FITTING = 21;

const NO_DATES = { cast: null, fitted: null };

interface Found {
  readonly device: SpokenDevice;
  readonly family: string;
  readonly sides: readonly ('left' | 'right' | 'both' | 'none')[];
  readonly column: Column;
}

interface Made {
  id: string;
  cells: Record<string, string>;
  places: Record<string, { column: string; given: string }>;
  row: number;
}

/** Devices of one file, each once however many rows repeat it. */
export class DeviceRows {
  private readonly made = new Map<string, Made>();
  readonly events: MadeRow[] = [];
  private readonly told = new Set<string>();
  constructor(
    private readonly taken: TakenTable,
    private readonly rules: FitRules,
    private readonly asker: Asker,
    private readonly refused: RefusedRow[],
    private readonly today: IsoDate,
    private readonly notices: string[],
  ) {}

  get rows(): MadeRow[] {
    return [...this.made.values()];
  }

  /** The devices a row names, with their dates. Returns the first one made, for what else the row says. */
  add(row: GridRow, person: Person, visit: IsoDate | null, conditionSide: string): MadeRow | null {
    let first: MadeRow | null = null;
    for (const found of this.devicesIn(row, conditionSide)) {
      for (const side of found.sides) first = this.one(row, person, visit, found, side) ?? first;
    }
    return first;
  }

  private devicesIn(row: GridRow, conditionSide: string): Found[] {
    const { columns } = this.taken;
    const found: Found[] = [];
    const named = columns.some((c) => c.meaning?.kind === 'device' || isField(c, 'device.family'));
    for (const column of columns) {
      const { meaning } = column;
      const text = cellOf(row, column);
      if (text === '' || saysNothing(text)) continue;
      if (meaning?.kind === 'device') {
        const word = foldText(text);
        if (noWords.has(word)) continue;
        const side =
          meaning.side ??
          (leftWords.has(word)
            ? 'left'
            : rightWords.has(word)
              ? 'right'
              : bothWords.has(word) && !yesWords.has(word)
                ? 'both'
                : null);
        found.push(
          ...this.settled(
            row,
            column,
            { ...NO_DATES, family: meaning.family, side, plural: false, word: foldText(column.heading) },
            conditionSide,
          ),
        );
      } else if (meaning?.kind === 'field' && meaning.field === 'device.family') {
        for (const device of cellDevices(text)) {
          const side = device.side ?? meaning.side ?? this.sideColumn(row);
          found.push(...this.settled(row, column, { ...device, side }, conditionSide));
        }
      } else if (!named && isDatedDevice(column) && !noWords.has(foldText(text))) {
        // 'AFO left - cast': the date's own heading names the device.
        const { family, side } = column.meaning as { family: string; side: DeviceSide | null };
        if (found.some((f) => f.device.family === family && f.device.side === side)) continue;
        found.push(
          ...this.settled(
            row,
            column,
            { ...NO_DATES, family, side, plural: false, word: foldText(family) },
            conditionSide,
          ),
        );
      }
    }
    return found;
  }

  /** The side a side column says; both for a cell 'L + R'. */
  private sideColumn(row: GridRow): DeviceSide | null {
    for (const column of fieldColumns(this.taken.columns, 'side')) {
      const side = sideIn(cellOf(row, column));
      if (side !== null) return side;
    }
    return null;
  }

  private settled(row: GridRow, column: Column, device: SpokenDevice, conditionSide: string): Found[] {
    const family = this.familyOf(device, column);
    if (family === null) return [];
    const rule = this.rules.get(family);
    if (rule === undefined) {
      this.refused.push(
        refusal(
          this.taken.table,
          row,
          column,
          `is a ${family}, for which there is no fit rule`,
          [...this.rules.keys()].join(', '),
        ),
      );
      return [];
    }
    if (rule.sides === 'none') return [{ device, family, sides: ['none'], column }];
    if (rule.sides === 'both') return [{ device, family, sides: ['both'], column }];
    if (device.side === 'both') return [{ device, family, sides: ['left', 'right'], column }];
    if (device.side !== null) return [{ device, family, sides: [device.side], column }];
    const plural = device.plural;
    const sided = conditionSide === 'left' || conditionSide === 'right';
    const answer = this.asker.ask({
      id: `side:${device.word}${plural || !sided ? '' : ':one-sided'}`,
      file: this.taken.table.file,
      asks: plural
        ? `"${cellOf(row, column)}" says no side. Is it a pair, one for each side?`
        : sided
          ? `"${cellOf(row, column)}" says no side, and the child's diagnosis does. Is it for the affected side?`
          : `"${cellOf(row, column)}" says no side. For which side is it?`,
      examples: [cellOf(row, column)],
      cells: 1,
      suggested: plural ? 'both' : sided ? 'affected' : null,
      choices: ['both', 'left', 'right', ...(sided ? ['affected'] : []), 'leave'].map((a) => ({
        answer: a,
        label: a,
      })),
    });
    if (answer === 'both') return [{ device, family, sides: ['left', 'right'], column }];
    if (answer === 'left' || answer === 'right') return [{ device, family, sides: [answer], column }];
    if (answer === 'affected' && sided) return [{ device, family, sides: [conditionSide as 'left'], column }];
    return [];
  }

  /** The family of a name: asked once a word where the name leaves it open or nobody knows it. */
  private familyOf({ family, word }: SpokenDevice, column: Column): string | null {
    const open = family === null ? [] : family.split('|').filter((f) => this.rules.has(f));
    if (family !== null && open.length === 1) return open[0];
    if (family !== null && !family.includes('|')) return family;
    const choices = open.length > 0 ? open : [...this.rules.keys()];
    const answer = this.asker.ask({
      id: `device:${word.replace(/s$/, '')}`,
      file: this.taken.table.file,
      asks:
        open.length > 0
          ? `Which device does this clinic mean by "${word}"?`
          : `Which device is "${word}" under "${column.heading}"?`,
      examples: [word],
      cells: 1,
      suggested: open[0] ?? null,
      choices: [...choices, 'leave'].map((a) => ({
        answer: a,
        label: this.rules.get(a)?.names.en.clinical ?? a,
      })),
    });
    return answer !== null && this.rules.has(answer) ? answer : null;
  }

  private one(
    row: GridRow,
    person: Person,
    visit: IsoDate | null,
    { device, family, column }: Found,
    side: string,
  ): MadeRow | null {
    const cast = this.dateIn(row, 'device.cast_date', family, side);
    const fitted =
      this.dateIn(row, 'device.fitted_date', family, side) ?? this.dateSaid(column, device.fitted);
    if (cast === 'unread' || fitted === 'unread') return null;
    let castDate =
      cast?.date ??
      this.dateSaid(column, device.cast)?.date ??
      (column.meaning?.kind === 'device' ? this.dateInCell(row, column) : null);
    const known = [...this.made.values()].filter(
      (m) => m.cells.child_id === person.id && m.cells.family === family && m.cells.side === side,
    );
    if (castDate === null) {
      const same = known
        .filter((m) => visit === null || m.cells.cast_date <= visit)
        .sort((a, b) => (a.cells.cast_date < b.cells.cast_date ? 1 : -1))[0];
      if (same && fitted === null) return this.fill(same, row, side, family, visit);
      castDate = this.reckonedCast(row, column, fitted?.date ?? null, visit);
    }
    if (castDate === null) return null;
    const own = this.ownId(row);
    const id = this.idOf(own, side) || contentId('d', person.id, family, side, castDate);
    const key = `${person.id}/${family}/${side}/${castDate}/${own}`;
    const made = this.made.get(key) ?? {
      id,
      row: row.row,
      cells: { id, child_id: person.id, family, side, cast_date: castDate },
      places: {
        family: { column: column.heading, given: cellOf(row, column) },
        ...(cast ? { cast_date: { column: cast.column.heading, given: cellOf(row, cast.column) } } : {}),
      },
    };
    this.made.set(key, made);
    if (fitted && !made.cells.fitted_date) {
      made.cells.fitted_date = fitted.date;
      made.places.fitted_date = { column: fitted.column.heading, given: cellOf(row, fitted.column) };
    }
    return this.fill(made, row, side, family, visit);
  }

  /** State, footplate, maker's sizes and the verdict of the visit. */
  private fill(made: Made, row: GridRow, side: string, family: string, visit: IsoDate | null): MadeRow {
    const status = this.slot(row, 'device.status', family, side);
    if (status) {
      const state = wordIn(status.text, (v) => v.deviceStates);
      if (state) made.cells.status = state;
      else
        this.refused.push(
          refusal(
            this.taken.table,
            row,
            status.column,
            'is not a state of a device doorpost knows',
            'ordered, worn or retired',
          ),
        );
    }
    const plate = this.slot(row, 'device.footplate', family, side);
    if (plate) {
      const word = foldText(plate.text);
      const kind = /behind|three quarter|3 4|met|prox|hinter|retro|dietro|achter|detras/.test(word)
        ? 'behind-toes'
        : /none|keine|sans|sin|geen|senza/.test(word)
          ? 'none'
          : /full|toe|lang|ganz|complet|enter|voll|heel|total|inter/.test(word)
            ? 'full'
            : null;
      if (kind) made.cells.footplate = kind;
      else
        this.refused.push(
          refusal(
            this.taken.table,
            row,
            plate.column,
            'is no footplate doorpost knows',
            'full, behind-toes or none',
          ),
        );
    }
    for (const column of this.taken.columns) {
      if (column.meaning?.kind === 'device-size' && cellOf(row, column) !== '')
        made.cells[column.meaning.heading] = cellOf(row, column);
    }
    const verdict = this.slot(row, 'device.verdict', family, side);
    if (verdict && visit) {
      const said = wordIn(verdict.text, (v) => v.verdicts);
      if (said && visit >= made.cells.cast_date)
        this.events.push({
          row: row.row,
          cells: {
            id: contentId('e', made.id, visit, said),
            device_id: made.id,
            date: visit,
            kind: 'verdict',
            verdict: said,
          },
          places: { verdict: { column: verdict.column.heading, given: verdict.text } },
        });
      else if (!said) made.cells[`extra:${verdict.column.heading}`] = verdict.text;
    }
    return made;
  }

  /** The sheet's own number of a device; where one number stands for a pair, the second carries its side. */
  private idOf(own: string, side: string): string {
    const taken = [...this.made.values()].some((m) => m.id === own);
    return own === '' || !taken ? own : `${own}-${side}`;
  }

  private ownId(row: GridRow): string {
    return cellOf(row, fieldColumns(this.taken.columns, 'device.id')[0]).slice(0, 80);
  }

  /** The filled cell of a device's field that belongs to this family and side. */
  private slot(
    row: GridRow,
    field: FieldId,
    family: string,
    side: string,
  ): { text: string; column: Column } | null {
    const fitting = fieldColumns(this.taken.columns, field).filter(({ meaning }) => {
      if (meaning?.kind !== 'field') return false;
      const sideFits =
        meaning.side === null ||
        meaning.side === 'both' ||
        meaning.side === side ||
        side === 'both' ||
        side === 'none';
      return sideFits && (meaning.family === null || meaning.family.split('|').includes(family));
    });
    for (const column of fitting) {
      const text = cellOf(row, column);
      if (text !== '' && !saysNothing(text)) return { text, column };
    }
    return null;
  }

  private dateIn(
    row: GridRow,
    field: FieldId,
    family: string,
    side: string,
  ): { date: IsoDate; column: Column } | 'unread' | null {
    const slot = this.slot(row, field, family, side);
    if (slot === null) return null;
    const date = dateOf(slot.text, this.taken.orders.get(slot.column.index), this.today);
    if (date === null) return null;
    if ('why' in date) {
      if (field === 'device.fitted_date' && wordIn(slot.text, (v) => v.deviceStates)) return null;
      this.refused.push(
        refusal(this.taken.table, row, slot.column, date.why, 'a date such as 2024-03-17 or 17.03.2024'),
      );
      return 'unread';
    }
    if (date.date > this.today && field === 'device.fitted_date') return null;
    return { date: date.date, column: slot.column };
  }

  /** A day a device's own cell gives, in the order of the sheet's other dates. */
  private dateSaid(column: Column, text: string | null): { date: IsoDate; column: Column } | null {
    if (text === null) return null;
    const orders = [...new Set(this.taken.orders.values())].filter((o) => o === 'dmy' || o === 'mdy');
    const date = dateOf(text, orders.length === 1 ? orders[0] : 'dmy', this.today);
    return date && 'date' in date && date.date <= this.today ? { date: date.date, column } : null;
  }

  /** 'AFO L 03/2024', or a column headed 'AFO cast' with the date in it. */
  private dateInCell(row: GridRow, column: Column): IsoDate | null {
    const text = cellOf(row, column);
    const order = this.taken.orders.get(column.index);
    const whole = cellDate(text, this.today) === null ? null : dateOf(text, order, this.today);
    if (whole && 'date' in whole) return whole.date;
    const part = /\d{4}-\d{2}-\d{2}|\d{1,2}[-/.]\d{1,2}[-/.]\d{2,4}|\b\d{1,2}[-/.]\d{4}\b/.exec(text)?.[0];
    const date = part === undefined ? null : dateOf(part, order ?? 'dmy', this.today);
    return date && 'date' in date && date.date <= this.today ? date.date : null;
  }

  private reckonedCast(
    row: GridRow,
    column: Column,
    fitted: IsoDate | null,
    visit: IsoDate | null,
  ): IsoDate | null {
    const from = fitted !== null ? 'fitting' : visit !== null ? 'visit' : null;
    if (from === null) {
      this.refused.push(
        refusal(
          this.taken.table,
          row,
          column,
          'has no date of its cast or fitting',
          'a column with the date of the cast, or of the fitting',
        ),
      );
      return null;
    }
    const answer = this.asker.ask({
      id: `cast:from-${from}`,
      file: this.taken.table.file,
      asks:
        from === 'fitting'
          ? `Some devices have a fitting and no cast. Shall the cast be taken as ${DAYS_TO_FITTING} days before the fitting?`
          : 'Some devices have no date of cast or fitting. Shall the first visit that names them be taken as their cast?',
      examples: [cellOf(row, column)],
      cells: 1,
      suggested: 'yes',
      choices: [
        { answer: 'yes', label: 'yes' },
        { answer: 'no', label: 'no, leave these devices out' },
      ],
    });
    if (answer !== 'yes') return null;
    if (!this.told.has(from))
      this.notices.push(
        from === 'fitting'
          ? `${this.taken.table.file}: devices without a date of cast are taken as cast ${DAYS_TO_FITTING} days before their fitting; their forecasts rest on that.`
          : `${this.taken.table.file}: devices without a date of cast or fitting are taken as cast at the first visit that names them; their forecasts rest on that.`,
      );
    this.told.add(from);
    return fitted !== null ? addDaysIso(fitted, -DAYS_TO_FITTING) : visit;
  }
}

const isField = (column: Column, field: FieldId): boolean =>
  column.meaning?.kind === 'field' && column.meaning.field === field;
const isDatedDevice = (column: Column): boolean =>
  column.meaning?.kind === 'field' &&
  column.meaning.family !== null &&
  (column.meaning.field === 'device.cast_date' || column.meaning.field === 'device.fitted_date');
