import { carryOver, earlierVisit, type IsShut } from '../../recall/carry-over.js';
import { type Action, actionIds } from '../../recall/contract.js';
import { daysBetween, type IsoDate } from '../../records/dates.js';
import type { RecallRow } from '../../store/contract.js';

export interface RecallQuery {
  readonly state: string;
  readonly action: string;
  readonly text: string;
  readonly due: string;
  readonly page: number;
  /** Everything on one page, for the printer. */
  readonly whole: boolean;
}

/** The whole list of most clinics on one page; a longer one is cut for the screen and whole for the printer. */
export const ROWS_A_PAGE = 250;

/** Rows by what is wanted, in the order in which actions are looked for; within one, in the order given. */
export const groupByAction = (
  rows: readonly RecallRow[],
): { readonly action: Action; readonly rows: readonly RecallRow[] }[] =>
  actionIds
    .map((action) => ({ action, rows: rows.filter((r) => r.entry.action === action) }))
    .filter((g) => g.rows.length > 0);

/** The filters as an address carries them: only those that are set, so that it can be read and shared. */
export const addressOf = (
  query: RecallQuery,
  change: Partial<Record<keyof RecallQuery, string | number | boolean>> = {},
) =>
  new URLSearchParams(
    Object.entries({ ...query, ...change }).flatMap(([name, value]) =>
      value === '' || value === 0 || value === false ? [] : [[name, value === true ? 'yes' : String(value)]],
    ),
  ).toString();

/** Rows that fit the filters, in the order given. Slots that could be filled are shown only when asked for. */
export function filterRows(rows: readonly RecallRow[], query: RecallQuery): RecallRow[] {
  const groups: Record<string, (r: RecallRow) => boolean> = {
    '': (r) => r.list !== 'open',
    overdue: (r) => r.list !== 'open' && r.entry.late,
    'never-seen': (r) => r.list !== 'open' && r.entry.lastSeen === null,
    'not-forecast': (r) => r.entry.action === 'measure',
    open: (r) => r.list === 'open',
  };
  const text = query.text.trim().toLocaleLowerCase();
  return rows.filter(
    (r) =>
      (query.state === '' ||
        (query.state === 'open' ? !['done', 'declined'].includes(r.state) : r.state === query.state)) &&
      (query.action === '' || r.entry.action === query.action) &&
      groups[query.due](r) &&
      (text === '' ||
        [r.childName, r.childId, r.contact].some((field) => field.toLocaleLowerCase().includes(text))),
  );
}

/** Rows whose week has come to nothing since the list was made: the next one gives them another. */
export const withoutWeek = (rows: readonly RecallRow[], today: IsoDate, isShut: IsShut): RecallRow[] =>
  rows.filter((r) => {
    const known = r.entry.passedWeeks ?? [];
    const now = carryOver(earlierVisit(r.entry, r), today, isShut).passedWeeks;
    return now.some((p) => !known.some((k) => k.week === p.week && k.why === p.why));
  });

export interface RecallChange {
  readonly childId: string;
  readonly childName: string;
  readonly what: string;
}

/** What a scheduler must know of a new list: who came, who left, whose date moved by a week or more. */
export function changesSince(
  before: readonly RecallRow[],
  now: readonly RecallRow[],
  date: (iso: IsoDate) => string,
): RecallChange[] {
  const old = new Map(before.map((r) => [r.childId, r]));
  const present = new Set(now.map((r) => r.childId));
  const changes: RecallChange[] = [];
  for (const r of now) {
    const was = old.get(r.childId);
    const who = { childId: r.childId, childName: r.childName };
    if (!was) changes.push({ ...who, what: 'new on the list' });
    else if (was.entry.dueBy && r.entry.dueBy) {
      const moved = daysBetween(was.entry.dueBy, r.entry.dueBy);
      if (Math.abs(moved) >= 7)
        changes.push({
          ...who,
          what: `wanted ${Math.abs(moved)} days ${moved < 0 ? 'earlier' : 'later'}`,
        });
    }
    const { movedFrom, plannedWeek } = r.entry;
    if (movedFrom)
      changes.push({
        ...who,
        what: `planned for the week of ${plannedWeek ? date(plannedWeek) : 'a later half-year'}, was ${date(movedFrom)}`,
      });
  }
  for (const r of before)
    if (!present.has(r.childId))
      changes.push({
        childId: r.childId,
        childName: r.childName,
        what:
          r.state === 'booked'
            ? 'no longer on it, but booked: is the visit still wanted?'
            : 'no longer on it',
      });
  return changes;
}
