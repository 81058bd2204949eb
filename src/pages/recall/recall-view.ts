import { carryOver, earlierVisit } from '../../recall/carry-over.js';
import { type Action, actionIds } from '../../recall/contract.js';
import type { ClinicDays } from '../../recall/level/clinic-week.js';
import type { IsoDate } from '../../records/dates.js';
import { groupBy } from '../../statistics/group-by.js';
import type { RecallBrief } from '../../store/contract.js';

export interface RecallQuery {
  readonly state: string;
  readonly action: string;
  readonly text: string;
  readonly due: string;
  readonly page: number;
  readonly whole: boolean;
}

/** The whole list of most clinics on one page; a longer one is cut for the screen and whole for the printer. */
export const ROWS_A_PAGE = 100;
/** Of a list that explains the plan; the rest is counted. */
export const LINES_SHOWN = 60;

/** Rows by what is wanted, in the order in which actions are looked for; within one, in the order given. */
export const groupByAction = <R extends RecallBrief>(
  rows: readonly R[],
): { readonly action: Action; readonly rows: readonly R[] }[] => {
  const groups = groupBy(rows, (r) => r.entry.action);
  return actionIds.flatMap((action) => {
    const own = groups.get(action);
    return own ? [{ action, rows: own }] : [];
  });
};

/** Those of the rows that stand on the page asked for, in its order. */
export function shownOf<R extends RecallBrief>(rows: readonly R[], query: RecallQuery): readonly R[] {
  const ordered = groupByAction(rows).flatMap((g) => g.rows);
  const from = query.page * ROWS_A_PAGE;
  return query.whole ? ordered : ordered.slice(from, from + ROWS_A_PAGE);
}

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

/** Rows that fit the filters but for the text, in the order given. Slots that could be filled are shown only when asked for. */
export function filterRows<R extends RecallBrief>(rows: readonly R[], query: RecallQuery): R[] {
  const groups: Record<string, (r: R) => boolean> = {
    '': (r) => r.list !== 'open',
    overdue: (r) => r.list !== 'open' && r.entry.late,
    'never-seen': (r) => r.list !== 'open' && r.entry.lastSeen === null,
    'not-forecast': (r) => r.entry.action === 'measure',
    open: (r) => r.list === 'open',
  };
  return rows.filter(
    (r) =>
      (query.state === '' ||
        (query.state === 'open' ? !['done', 'declined'].includes(r.state) : r.state === query.state)) &&
      (query.action === '' || r.entry.action === query.action) &&
      groups[query.due](r),
  );
}

/** Rows whose week has come to nothing since the list was made: the next one gives them another. */
export const withoutWeek = (
  rows: readonly RecallBrief[],
  today: IsoDate,
  clinic: ClinicDays,
): RecallBrief[] =>
  rows.filter((r) => {
    const known = r.entry.passedWeeks ?? [];
    const now = carryOver(earlierVisit(r.entry, r), today, clinic).passedWeeks;
    return now.some((p) => !known.some((k) => k.week === p.week && k.why === p.why));
  });

/** Visits booked from the list before whose child no new list wants: nobody would miss them. */
export function bookedAndGone(
  before: readonly RecallBrief[],
  now: readonly RecallBrief[],
  today: IsoDate,
): RecallBrief[] {
  const present = new Set(now.map((r) => r.childId));
  return before.filter(
    (r) => r.state === 'booked' && !present.has(r.childId) && !(r.appointment && r.appointment < today),
  );
}
