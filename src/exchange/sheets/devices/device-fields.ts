import { IN_FUTURE } from '../../../records/check/refuse.js';
import { contentId } from '../../csv/content-id.js';
import { foldText } from '../../headings/fold-words.js';
import type { MadeRow } from '../canonical.js';
import { wordIn } from '../cell-words.js';
import { cellOf } from '../column.js';
import type { GridRow } from '../grid.js';
import type { TakenTable } from '../taken-table.js';
import { dateIn } from './device-dates.js';
import type { MadeDevice, Mention } from './device-register.js';
import { type OneDevice, slot } from './device-sheet.js';

/** State, footplate and maker's sizes of a device; gives back what happened to it: its end, the verdict of the visit. */
export function fill(taken: TakenTable, made: MadeDevice, mention: Mention, of: OneDevice): MadeRow[] {
  fillState(taken, made, mention.row, of);
  const events = [endOf(taken, made, mention, of), verdictOf(taken, made, mention, of)];
  return events.filter((event) => event !== null);
}

/** The day a device ended and why. A reason without a day is kept with the device, which is no longer worn. */
function endOf(taken: TakenTable, made: MadeDevice, mention: Mention, of: OneDevice): MadeRow | null {
  const { row } = mention;
  const ended = dateIn(taken, row, 'device.end_date', of, mention);
  const why = slot(taken, row, 'device.end_reason', of);
  if (ended === 'unread' || (ended === null && why === null)) return null;
  if (ended !== null && ended.date > taken.desk.today) {
    taken.refuse(row, ended.column, IN_FUTURE, 'a date up to today');
    return null;
  }
  made.cells.status = 'retired';
  const reason = why === null ? null : wordIn(why.text, 'endReasons');
  if (ended === null) {
    if (why) made.cells[`extra:${why.column.heading}`] = why.text;
    return null;
  }
  made.ended = ended.date;
  const places = { date: { column: ended.column.heading, given: cellOf(row, ended.column) } };
  return {
    row: row.row,
    cells: {
      id: contentId('e', made.id, ended.date, 'retired'),
      device_id: made.id,
      date: ended.date,
      kind: 'retired',
      end_reason: reason ?? '',
      note: reason === null ? (why?.text ?? '') : '',
    },
    places,
  };
}

function fillState(taken: TakenTable, made: MadeDevice, row: GridRow, of: OneDevice): void {
  const status = slot(taken, row, 'device.status', of);
  if (status) {
    const state = wordIn(status.text, 'deviceStates');
    const why = 'is not a state of a device doorpost knows';
    if (state) made.cells.status = state;
    else taken.refuse(row, status.column, why, 'ordered, worn or retired');
  }
  const plate = slot(taken, row, 'device.footplate', of);
  if (plate) {
    const kind = footplateNamed(foldText(plate.text));
    // 'Full, with a toe raise': the words stay with the device.
    if (kind) Object.assign(made.cells, { footplate: kind, [`extra:${plate.column.heading}`]: plate.text });
    else taken.refuse(row, plate.column, 'is no footplate doorpost knows', 'full, behind-toes or none');
  }
  const before = slot(taken, row, 'device.replaces', of);
  if (before) made.cells.replaces = before.text;
  for (const column of taken.columns) {
    if (column.meaning?.kind === 'device-size' && cellOf(row, column) !== '')
      made.cells[column.meaning.heading] = cellOf(row, column);
  }
}

function footplateNamed(word: string): 'behind-toes' | 'none' | 'full' | null {
  if (/behind|three quarter|3 4|met|prox|hinter|retro|dietro|achter|detras/.test(word)) return 'behind-toes';
  if (/none|keine|sans|sin|geen|senza/.test(word)) return 'none';
  return /full|toe|lang|ganz|complet|enter|voll|heel|total|inter/.test(word) ? 'full' : null;
}

function verdictOf(
  taken: TakenTable,
  made: MadeDevice,
  { row, visit }: Mention,
  of: OneDevice,
): MadeRow | null {
  const verdict = slot(taken, row, 'device.verdict', of);
  if (verdict && visit) {
    const said = wordIn(verdict.text, 'verdicts');
    if (said && visit >= made.cells.cast_date)
      return {
        row: row.row,
        cells: {
          id: contentId('e', made.id, visit, said),
          device_id: made.id,
          date: visit,
          kind: 'verdict',
          verdict: said,
        },
        places: { verdict: { column: verdict.column.heading, given: verdict.text } },
      };
    if (!said) made.cells[`extra:${verdict.column.heading}`] = verdict.text;
  }
  return null;
}
