import type { WorkState } from '../../recall/contract.js';
import type { IsoDate } from '../../records/dates.js';
import { fieldLimits } from '../../records/field-limits.js';
import { bookedUntil } from '../../service/set-recall-state.js';
import { callState, type RecallRow } from '../../store/contract.js';
import { stateNames } from '../../words/action-names.js';
import { Form, Submit } from '../parts/form.js';
import { usePage } from '../parts/page-context.js';

/** The answers of most calls stand open; the rest, the day booked and the note are one tap away. */
const OPEN: readonly string[] = ['called', 'left-message', 'booked'];

/** What was said of a family and refused: why, and what was typed with it, which stands in its row again. */
export interface RefusedCall {
  readonly entry: string;
  readonly problem: string;
  readonly appointment?: string;
  readonly note?: string;
}

/** How the work with a family stands, and what can be said of it next. */
export function CallState(props: {
  row: RecallRow;
  back: string;
  again: IsoDate | null;
  refused: RefusedCall | null;
}) {
  const { row, back, again } = props;
  const typed = props.refused?.entry === row.id ? props.refused : null;
  const { format, today } = usePage();
  const who = row.childName || row.childId;
  const action = `/recall/entries/${encodeURIComponent(row.id)}`;
  const buttons = (open: boolean) =>
    stateKeys
      .filter(([state]) => state !== row.state && OPEN.includes(state) === open)
      .map(([state, key]) => (
        <button key={state} type="submit" name="state" value={state} data-key={key}>
          {stateNames[state]}
        </button>
      ));
  return (
    <>
      <p class="state">
        <strong>{stateNames[row.state]}</strong>
        {row.stateAt && (
          <small>
            {' '}
            {format.day(row.stateAt)}, {row.stateBy}
            {row.stateNote && `: ${row.stateNote}`}
            {again && `. Ring again on ${format.date(again)}`}
          </small>
        )}
      </p>
      <Form action={`${action}/state`} class="no-print" hidden={{ version: row.version, back }}>
        <div class="choices">{buttons(true)}</div>
        <details open={typed !== null}>
          <summary>Day, note, other answers</summary>
          <p class="field">
            <label>
              Booked for{' '}
              <input
                name="appointment"
                type="date"
                min={today}
                max={bookedUntil(today)}
                aria-label={`Day booked for ${who}; left empty, the planned week`}
                value={typed?.appointment ?? row.appointment ?? ''}
              />
            </label>
          </p>
          <p class="field">
            <label>
              Note{' '}
              <input
                name="note"
                {...fieldLimits(callState.shape.note)}
                aria-label={`Note for ${who}`}
                value={typed?.note}
                placeholder="no answer, wants a Friday"
              />
            </label>
          </p>
          <div class="choices">{buttons(false)}</div>
        </details>
      </Form>
      {row.canUndo && (
        <Form action={`${action}/undo`} class="no-print" hidden={{ back }}>
          <Submit class="quiet" data-key="u">
            Undo
          </Submit>
        </Form>
      )}
    </>
  );
}

/** Keys that set a state; shown on the page and read by its script. */
export const stateKeys: readonly (readonly [WorkState, string])[] = [
  ['called', 'c'],
  ['left-message', 'm'],
  ['booked', 'b'],
  ['declined', 'd'],
  ['did-not-come', 'n'],
  ['moved-away', 'w'],
  ['done', 'x'],
];
