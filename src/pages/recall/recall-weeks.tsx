import { familyLabel } from '../../charts/device-label.js';
import type { RecallLevelling } from '../../recall/contract.js';
import { counted } from '../../records/counted.js';
import type { RecallBrief } from '../../store/contract.js';
import { usePage } from '../parts/page-context.js';
import { LINES_SHOWN } from './recall-view.js';

/** As the recall job keeps it with the run; absent in lists made before they were levelled. */
export type Levelling = Pick<RecallLevelling, 'weeks' | 'relief' | 'visitsSaved' | 'notLevelled'>;

/** What the plan of the weeks saves, and where places are missing: which weeks, who is late for it, what would help. */
export function Weeks(props: {
  levelling?: Levelling;
  late: readonly RecallBrief[];
  names: ReadonlyMap<string, string>;
}) {
  const { levelling, late, names } = props;
  const { format } = usePage();
  if (!levelling) return null;
  const { weeks, relief, visitsSaved, notLevelled } = levelling;
  if (notLevelled) return <p class="notice">{notLevelled}</p>;
  const missing = weeks.flatMap((w) => {
    const week = `Week of ${format.date(w.week)}: `;
    return [
      ...(w.overtime > 0
        ? [`${week}${w.used} places needed, ${w.slots} there are, ${w.overtime} too few.`]
        : []),
      ...(w.workshop ?? []).map(
        ({ families, limit, jobs }) =>
          `${week}${jobs} jobs for the workshop (${families.map(familyLabel).join(', ') || 'all families'}), ${limit} it can take.`,
      ),
    ];
  });
  const saved = visitsSaved > 0 && (
    <p>
      Both sides, several devices, brothers and sisters and reviews that fall due go in one visit where the
      odds allow: {visitsSaved} fewer {visitsSaved === 1 ? 'visit' : 'visits'} in the next half year than one
      each.
    </p>
  );
  if (missing.length === 0 && late.length === 0) return saved || null;
  return (
    <>
      {saved}
      <details class="card" id="too-few">
        <summary>
          Too few places: {counted(late.length, 'child comes', 'children come')} later than is safe
        </summary>
        <ul>
          {missing.slice(0, LINES_SHOWN).map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
        {late.length > 0 && <h3>Who is late</h3>}
        <ul>
          {late.slice(0, LINES_SHOWN).map((r) => (
            <li key={r.id}>
              <a href={`#e-${r.id}`}>{names.get(r.childId) || r.childId}</a>
              {r.entry.alerts.includes('skin-cannot-warn') && ' (skin cannot warn)'}: {r.entry.tooLate}
            </li>
          ))}
          {late.length > LINES_SHOWN && <li>and {late.length - LINES_SHOWN} more</li>}
        </ul>
        {relief.length > 0 && <h3>What would help most</h3>}
        <ul>
          {relief.map((r) => (
            <li key={r.text}>{r.text}</li>
          ))}
        </ul>
      </details>
    </>
  );
}
