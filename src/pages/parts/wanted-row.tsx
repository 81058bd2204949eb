import type { ComponentChildren } from 'preact';
import { deviceLabels } from '../../charts/device-label.js';
import { capital } from '../../forecast/words.js';
import { isRungToday, type PassedWeek } from '../../recall/contract.js';
import type { RecallRow } from '../../store/contract.js';
import { actionNames } from '../../words/action-names.js';
import { languageName } from '../../words/language-name.js';
import { AlertTags } from './alert-tags.js';
import { Contact } from './contact.js';
import { shortWeekday } from './format.js';
import { usePage } from './page-context.js';
import { ChildLink } from './paths.js';

/** Headings of the columns of a row; the last is what can be done from it. */
export const rowColumns = (why: string, last: string) => ['Child', 'By', why, 'Visit', last];

/** One child that is wanted: who with alerts, by when and how late, why, the visit, and what can be done about it. */
export function WantedRow(props: {
  row: RecallRow;
  why: ComponentChildren;
  /** The action beside the day, where no heading over the row says it. */
  named?: boolean;
  children: ComponentChildren;
}) {
  const { row, why, named, children } = props;
  const { entry } = row;
  return (
    <tr id={`e-${row.id}`} data-entry={row.id}>
      <th scope="row" class="child">
        <ChildLink id={row.childId} name={row.childName} /> <small>{row.childName && row.childId}</small>
        <span class="alert-tags">
          <AlertTags alerts={entry.alerts} />
        </span>
      </th>
      <td data-label="By" class="by">
        {named && entry.dueBy && <>{capital(actionNames[entry.action])} </>}
        <By row={row} />
      </td>
      <td class="reason">{why}</td>
      <td class="visit">
        <Visit row={row} />
      </td>
      <td class="states">{children}</td>
    </tr>
  );
}

/** How a family is reached, and in what language. */
export const Reach = ({ row }: { row: RecallRow }) => (
  <p class="contact">
    <Contact text={row.contact} />
    {row.language !== 'en' && <small> speaks {languageName(row.language)}</small>}
  </p>
);

function By({ row }: { row: RecallRow }) {
  const { format, today } = usePage();
  const { entry } = row;
  if (isRungToday(entry.action)) return <span class="tag alert">ring today</span>;
  if (!entry.dueBy) return <span>{actionNames[entry.action]}</span>;
  return (
    <>
      <strong class="day">{format.date(entry.dueBy)}</strong>{' '}
      {entry.late && <span class="tag due">late</span>} <small>{format.away(entry.dueBy, today)}</small>
    </>
  );
}

/** For which devices, in which week and with whom, and what else the visit has to fit. */
function Visit({ row }: { row: RecallRow }) {
  const { entry } = row;
  const first = entry.devices.filter((d) => d.action === entry.action);
  const other = entry.devices.filter((d) => d.action !== entry.action);
  return (
    <>
      <p>{deviceLabels(first.length > 0 ? first : entry.devices) || 'no device'}</p>
      {first.length > 0 && other.length > 0 && (
        <p class="small">
          also{' '}
          {[...new Set(other.map((d) => d.action))]
            .map((a) => `${actionNames[a]}: ${deviceLabels(other.filter((d) => d.action === a))}`)
            .join('; ')}
        </p>
      )}
      <Week row={row} />
      {entry.siblingGroup && <p class="small">with a brother or sister</p>}
      {row.transportDays.length > 0 && (
        <p class="small">transport {row.transportDays.map(shortWeekday).join(', ')}</p>
      )}
    </>
  );
}

/** The week planned or the day booked, with whom, what came of weeks before, and why this one. */
function Week({ row }: { row: RecallRow }) {
  const { format } = usePage();
  const { entry, appointment } = row;
  if (!appointment && !entry.plannedWeek) return null;
  const day = entry.plannedWeekday && !appointment ? `, ${shortWeekday(entry.plannedWeekday)}` : '';
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
      {entry.tooLate && !appointment && <span class="tag due">too late</span>}
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

const passedWords: Readonly<Record<PassedWeek['why'], string>> = {
  declined: 'declined',
  'did-not-come': 'not brought',
  'clinic-cancelled': 'cancelled by the clinic',
  'nothing-recorded': 'booked, nothing recorded',
};

/** What came of weeks before, each kind once with how often. */
const passedTags = (passed: readonly PassedWeek[]): string[] =>
  [...new Set(passed.map((p) => p.why))].map((why) => {
    const times = passed.filter((p) => p.why === why).length;
    return times > 1 ? `${passedWords[why]} ${times} times` : `${passedWords[why]} before`;
  });
