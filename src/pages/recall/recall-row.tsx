import { deviceLabels } from '../../charts/device-label.js';
import type { RecallRow } from '../../store/contract.js';
import { actionNames, alertNames, stateNames } from '../../words/action-names.js';
import { Csrf } from '../parts/layout.js';
import type { PageContext } from '../parts/page-context.js';
import { passedTags, stateKeys, weekdays } from './recall-words.js';

export function Row(props: { context: PageContext; row: RecallRow; today: string; back: string }) {
  const { context, row, today, back } = props;
  const { format } = context;
  const { entry } = row;
  return (
    <tr id={`e-${row.id}`} data-entry={row.id}>
      <th scope="row">
        <a href={`/children/${encodeURIComponent(row.childId)}`}>{row.childName || row.childId}</a>
        <br />
        <small>{row.childId}</small>
        {entry.alerts.map((alert) => (
          <span key={alert}>
            <br />
            <span class={`tag ${alert}`}>{alertNames[alert]}</span>
          </span>
        ))}
      </th>
      <td data-label="By">
        {entry.action === 'see-now' || entry.action === 'repair' ? (
          <span class="tag alert">ring today</span>
        ) : entry.dueBy ? (
          <>
            <strong class="day">{format.date(entry.dueBy)}</strong>
            <br />
            {entry.late ? (
              <span class="tag due">late</span>
            ) : (
              <small>{format.away(entry.dueBy, today)}</small>
            )}
          </>
        ) : (
          <span class="tag">{actionNames[entry.action]}</span>
        )}
      </td>
      <td data-label="Why" class="reason">
        {entry.reason.text}
      </td>
      <td data-label="Visit" class="visit">
        {actionNames[entry.action]}: {deviceLabels(entry.devices) || 'no device'}
        <Week context={context} row={row} />
        <ul class="bare">
          {entry.siblingGroup && <li>with sibling</li>}
          {row.contact && (
            <li>
              <Contact text={row.contact} />
            </li>
          )}
          {row.language !== 'en' && <li>speaks {languageName(row.language)}</li>}
          {row.transportDays.length > 0 && (
            <li>transport {row.transportDays.map((d) => weekdays[d]).join(', ')}</li>
          )}
        </ul>
      </td>
      <td data-label="State" class="states">
        <strong>{stateNames[row.state]}</strong>
        {row.stateAt && (
          <>
            {' '}
            <small>
              {format.date(row.stateAt.slice(0, 10))}, {row.stateBy}
              {row.stateNote && `: ${row.stateNote}`}
            </small>
          </>
        )}
        <form method="post" action={`/recall/entries/${encodeURIComponent(row.id)}/state`} class="no-print">
          <Csrf context={context} />
          <input type="hidden" name="version" value={row.version} />
          <input type="hidden" name="back" value={back} />
          <div class="choices">
            {stateKeys
              .filter(([state]) => state !== row.state)
              .map(([state, key]) => (
                <button key={state} type="submit" name="state" value={state} data-key={key}>
                  {stateNames[state]}
                </button>
              ))}
          </div>
          <details>
            <summary>Day booked, note</summary>
            <input
              name="appointment"
              type="date"
              aria-label={`Day booked for ${row.childName || row.childId}; left empty, the planned week`}
              value={row.appointment ?? ''}
            />
            <input
              name="note"
              maxLength={300}
              aria-label={`Note for ${row.childName || row.childId}`}
              placeholder="no answer, wants a Friday"
            />
          </details>
        </form>
        {row.canUndo && (
          <form method="post" action={`/recall/entries/${encodeURIComponent(row.id)}/undo`} class="no-print">
            <Csrf context={context} />
            <input type="hidden" name="back" value={back} />
            <button type="submit" class="quiet" data-key="u">
              Undo
            </button>
          </form>
        )}
      </td>
    </tr>
  );
}

/** A telephone number in the contact can be tapped. */
function Contact({ text }: { text: string }) {
  const number = /\+?\d[\d ()/-]{5,}\d/.exec(text)?.[0];
  if (!number) return <>{text}</>;
  const [before, after] = text.split(number);
  return (
    <>
      {before}
      <a href={`tel:${number.replace(/[^+\d]/g, '')}`}>{number}</a>
      {after}
    </>
  );
}

/** The week planned or the day booked, with whom, what came of weeks before, and why this one. */
function Week({ context, row }: { context: PageContext; row: RecallRow }) {
  const { format } = context;
  const { entry, appointment } = row;
  if (!appointment && !entry.plannedWeek) return null;
  const day = entry.plannedWeekday && !appointment ? `, ${weekdays[entry.plannedWeekday]}` : '';
  const who = entry.plannedClinician ? `, with ${entry.plannedClinician}` : '';
  return (
    <>
      <p class="small">
        {appointment ? (
          <strong>booked for {format.date(appointment)}</strong>
        ) : (
          `week of ${format.date(entry.plannedWeek!)}`
        )}
        {day}
        {who}
      </p>
      {passedTags(entry.passedWeeks ?? []).map((tag) => (
        <span key={tag} class="tag due">
          {tag}
        </span>
      ))}
      {entry.weekReason && (
        <details class="small">
          <summary>why this week</summary>
          {entry.weekReason}
        </details>
      )}
    </>
  );
}

function languageName(tag: string): string {
  try {
    return new Intl.DisplayNames('en', { type: 'language' }).of(tag) ?? tag;
  } catch {
    return tag;
  }
}
