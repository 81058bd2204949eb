import type { ConditionId } from '../../records/records.js';
import type { Places } from '../csv/read-table.js';
import { foldText } from '../headings/fold-words.js';
import { isField } from '../headings/meaning.js';
import { languageOf } from '../headings/spoken-languages.js';
import type { FieldId } from '../headings/vocabulary.js';
import type { MadeRow } from './canonical.js';
import { cellDevices } from './cell-device.js';
import { cellDiagnosis } from './cell-diagnosis.js';
import { cellWeekdays } from './cell-weekdays.js';
import { noWords, saysNothing, sideIn, wordIn, yesWords } from './cell-words.js';
import { FLAGS, flagSaid } from './child-flags.js';
import { type Column, cellOf } from './column.js';
import { isWithin } from './people.js';
import { fieldCell, fieldColumns, nameColumn, nameOf, type PersonRow, sexCell } from './sheet-rows.js';
import type { TakenTable } from './taken-table.js';
import { fileTitle } from './title-measure.js';

/** Fields of a child that are taken as text. */
const TEXTS = ['clinician', 'contact', 'sibling_group', 'language'] as const;
/** Diagnoses whose side is the child's affected one. */
const ONE_SIDED: ReadonlySet<ConditionId> = new Set([
  'hemiplegia',
  'clubfoot',
  'leg-length-difference',
  'hip-dysplasia',
]);

/** Fills a cell of the child that is still empty, and notes the column it comes from. */
type SetCell = (name: string, value: string, column: Column | null) => void;

interface Gathered {
  cells: Record<string, string>;
  places: Record<string, { column: string; given: string }>;
  row: number;
  file: string;
}

/** One row a child out of all rows that speak of it: the first filled cell of each field stands. */
export class ChildRows {
  private readonly gathered = new Map<string, Gathered>();
  add(taken: TakenTable, rows: readonly PersonRow[], sexOf: (cell: string) => string | null): void {
    for (const { row, person } of rows) {
      if (person === null || person.birthDate === null) continue;
      const child = this.gathered.get(person.id) ?? {
        cells: {},
        places: {},
        row: row.row,
        file: taken.table.file,
      };
      this.gathered.set(person.id, child);
      const set: SetCell = (name, value, column) => {
        const before = child.cells[name];
        if (before) otherwise(taken, row, child.cells, name, value, column);
        if (before || value === '') return;
        child.cells[name] = value;
        if (column) child.places[name] = { column: column.heading, given: cellOf(row, column) };
      };
      const field = (id: FieldId) => fieldCell(taken.columns, row, id);
      set('id', person.id, field('child.id').column);
      set('name', nameOf(taken.columns, row).slice(0, 200), nameColumn(taken.columns));
      set('birth_date', person.birthDate, field('child.birth_date').column);
      this.sex(taken, row, set, sexOf);
      this.diagnosis(taken, row, child, set);
      this.gestation(taken, row, child, set);
      for (const name of FLAGS) this.flag(taken, row, name, child, set);
      this.side(taken, row, child, set);
      for (const name of TEXTS) {
        const text = fieldColumns(taken.columns, `child.${name}` as FieldId)
          .map((c) => cellOf(row, c))
          .filter((t) => !saysNothing(t))
          .join(', ');
        set(name, name === 'language' ? languageOf(text) : text, field(`child.${name}` as FieldId).column);
      }
      this.transport(taken, row, child, set);
      this.status(taken, row, set);
    }
  }

  /** What a column that doorpost does not read says of a child, kept; different words are joined. */
  keep(personId: string, heading: string, text: string): void {
    const child = this.gathered.get(personId);
    if (!child) return;
    joinExtra(child.cells, heading, text);
  }

  made(): { file: string; rows: MadeRow[] }[] {
    const byFile = new Map<string, MadeRow[]>();
    for (const { cells, places, row, file } of this.gathered.values()) {
      const rows = byFile.get(file) ?? [];
      byFile.set(file, rows);
      rows.push({ row, cells: { ...cells, sex: cells.sex ?? '' }, places: places as Places });
    }
    return [...byFile].map(([file, rows]) => ({ file, rows }));
  }

  private sex(
    taken: TakenTable,
    row: PersonRow['row'],
    set: SetCell,
    sexOf: (cell: string) => string | null,
  ): void {
    const { text, column } = sexCell(taken.columns, row);
    if (text === '' || column === null) return;
    const sex = sexOf(text);
    if (sex !== null) set('sex', sex, column);
  }

  private side(taken: TakenTable, row: PersonRow['row'], { cells }: Gathered, set: SetCell): void {
    const beside = fieldCell(taken.columns, row, 'side');
    const one = sideIn(beside.text);
    if (one !== null && holdsBothSides(taken, row)) {
      const sided = !cells.conditions || /\b(?:clubfoot|hip-dysplasia)\b/.test(cells.conditions);
      if (sided) set('affected_side', one, beside.column);
      taken.tell(
        `"${beside.column?.heading}" stands beside devices that hold both sides; it is ${sided ? "taken as the child's affected side" : 'not taken'}.`,
      );
    }
    const side = fieldCell(taken.columns, row, 'child.affected_side');
    set('affected_side', sideWord(side.text), side.column);
    if (side.text !== '' && sideWord(side.text) === '')
      taken.refuse(row, side.column, 'is no side', 'left, right, both or none');
  }

  private status(taken: TakenTable, row: PersonRow['row'], set: SetCell): void {
    const status = fieldCell(taken.columns, row, 'child.status');
    const state = status.text === '' ? null : wordIn(status.text, 'childStates');
    const accepted = 'active, moved away, discharged or died';
    if (state) set('status', state, status.column);
    else if (status.text !== '')
      taken.refuse(row, status.column, 'is not a state of care doorpost knows', accepted);
  }

  /** Words that are no days cost the child nothing: any day is taken, and the words stay with it. */
  private transport(taken: TakenTable, row: PersonRow['row'], child: Gathered, set: SetCell): void {
    const { text, column } = fieldCell(taken.columns, row, 'child.transport_days');
    if (text === '' || column === null) return;
    const days = cellWeekdays(text);
    if (days !== null) set('transport_days', days, column);
    else {
      joinExtra(child.cells, column.heading, text);
      taken.refuse(row, column, 'is not a list of weekdays', 'days of the week, as Mon, Thu');
    }
  }

  private diagnosis(taken: TakenTable, row: PersonRow['row'], child: Gathered, set: SetCell): void {
    const columns = fieldColumns(taken.columns, 'child.conditions');
    if (columns.length === 0) this.titled(taken, child, set);
    for (const column of columns) {
      const text = cellOf(row, column);
      if (!saysDiagnosis(text)) continue;
      const said = cellDiagnosis(text);
      const words = [...said.conditions, ...said.unknown.map((u) => u.replaceAll(/[|;,]/g, ' '))];
      const before = (child.cells.conditions ?? '').split(' | ').filter((w) => w !== '');
      child.cells.conditions = [...new Set([...before, ...words])].join(' | ');
      child.places.conditions ??= { column: column.heading, given: text };
      // What was written stays with the child: levels, sides and GMFCS are more than a condition.
      if (
        words.join(' ') !== foldText(text).replaceAll(' ', '-') &&
        !said.conditions.some((id) => id === text)
      )
        joinExtra(child.cells, `${column.heading} as written`, text);
      if (said.side !== null && (said.conditions.some((id) => ONE_SIDED.has(id)) || said.side === 'both'))
        set('affected_side', said.side, column);
      if (said.spinaBifida) this.spinaBifida(taken, column, set);
    }
  }

  /** A list called 'Spina bifida clinic' says it of all its children; other diagnoses bring no caution, and are not asked about. */
  private titled(taken: TakenTable, child: Gathered, set: SetCell): void {
    const title = [...taken.table.titles, fileTitle(taken.file)].find((t) => cellDiagnosis(t).spinaBifida);
    if (title === undefined) return;
    const answer = taken.ask({
      id: 'condition:from-title',
      asks: `The list is called "${title}" and no column says a diagnosis. Have all its children spina bifida?`,
      examples: [title],
      suggested: 'yes',
    });
    if (answer !== 'yes') return;
    child.cells.conditions = cellDiagnosis(title).conditions.join(' | ');
    this.spinaBifida(taken, null, set);
  }

  /** Very high risk of latex allergy (see cautions): taken as an alert unless the sheet says no. */
  private spinaBifida(taken: TakenTable, column: Column | null, set: SetCell): void {
    if (fieldColumns(taken.columns, 'child.latex_alert').length === 0) set('latex_alert', 'yes', column);
    if (fieldColumns(taken.columns, 'child.insensate_skin').length > 0) return;
    taken.tell(
      'no column says whether skin can warn; of children with spina bifida it is taken as skin that cannot, until their page says otherwise.',
    );
    set('insensate_skin', 'yes', column);
  }

  private gestation(taken: TakenTable, row: PersonRow['row'], child: Gathered, set: SetCell): void {
    const { text, column } = fieldCell(taken.columns, row, 'child.gestation_weeks');
    if (text === '' || column === null) return;
    const weeks = /\b(2[2-9]|3\d|4[0-4])\b/.exec(text)?.[1];
    asWritten(child, column, text);
    if (weeks) set('gestation_weeks', weeks, column);
    else if (!/term|reif/i.test(text))
      taken.refuse(row, column, 'is no number of weeks', '22 to 44 completed weeks, as 32 or 32+4');
  }

  private flag(
    taken: TakenTable,
    row: PersonRow['row'],
    name: (typeof FLAGS)[number],
    child: Gathered,
    set: SetCell,
  ): void {
    const { column } = fieldCell(taken.columns, row, `child.${name}`);
    if (column === null) return;
    const text = cellOf(row, column);
    if (text === '') return;
    const word = foldText(text);
    asWritten(child, column, text);
    const said = flagSaid(name, word);
    if (said !== null) {
      set(name, said, column);
      return;
    }
    if (saysNothing(text)) return;
    // A caution that cannot be read is kept on: the careful side.
    if (name === 'latex_alert' || name === 'insensate_skin') {
      set(name, 'yes', column);
      taken.tell(
        `row ${row.row}, ${column.heading} "${text}" is neither yes nor no; taken as yes to be safe.`,
      );
    } else taken.refuse(row, column, 'is neither yes nor no', 'yes or no');
  }
}

/** What a later row says of a child that an earlier one says otherwise: told, or of a text kept beside it. */
function otherwise(
  taken: TakenTable,
  row: PersonRow['row'],
  cells: Record<string, string>,
  name: string,
  value: string,
  column: Column | null,
): void {
  const before = cells[name];
  if (value === '' || column === null || before === value || value === 'unknown') return;
  if (name === 'transport_days' || TEXTS.some((text) => text === name)) {
    joinExtra(cells, column.heading, value);
    return;
  }
  // A side beside a device may be the device's.
  if (name === 'affected_side' && !isField(column.meaning, 'child.affected_side')) return;
  if (name === 'id' || (name === 'name' && isWithin(value, before))) return;
  const why = `differs from ${before}, read before for this child; the first is kept`;
  taken.refuse(row, column, why, 'the same in every line of a child', name === 'name' ? value : undefined);
}

/** Boots with a bar, a harness: a side in such a row is of nothing but the child. */
function holdsBothSides({ columns, desk, table, file }: TakenTable, row: PersonRow['row']): boolean {
  if (columns.some(({ meaning }) => meaning?.kind === 'reading' && meaning.side === 'row')) return false;
  const families = columns.flatMap((column) => {
    const { meaning } = column;
    if (meaning?.kind === 'field' && meaning.field === 'device.family')
      return cellDevices(cellOf(row, column)).map(({ family }) => family);
    return meaning?.kind === 'device' || meaning?.kind === 'field' ? (meaning.family ?? []) : [];
  });
  const both = (family: string) => desk.rules.get(family)?.sides === 'both';
  // 'Boots on' in a list called 'Boots and bar': what the title says.
  if (families.length === 0)
    families.push(...[...table.titles, fileTitle(file)].flatMap(cellDevices).map(({ likely }) => likely));
  return families.length > 0 && families.every((named) => named?.split('|').every(both) ?? false);
}

/** 'none' is said of a diagnosis; other words for nothing, and an empty cell, are not. */
const saysDiagnosis = (text: string): boolean =>
  text !== '' && (!saysNothing(text) || /^(none|keine|aucun|ninguno|geen|nessuna)$/i.test(text));

/** Words of which only a part is read stay with the child whole. */
function asWritten({ cells }: Gathered, { heading }: Column, text: string): void {
  const word = foldText(text);
  if (word.includes(' ') && !saysNothing(text) && !yesWords.has(word) && !noWords.has(word))
    joinExtra(cells, `${heading} as written`, text);
}

/** What a sheet says of a child beside what doorpost reads; different words are joined. */
function joinExtra(cells: Record<string, string>, heading: string, text: string): void {
  const key = `extra:${heading}`;
  const before = cells[key];
  if (before === undefined) cells[key] = text;
  else if (!before.split(' | ').includes(text)) cells[key] = `${before} | ${text}`;
}

const sideWord = (text: string): string => sideIn(text) ?? (noWords.has(foldText(text)) ? 'none' : '');
