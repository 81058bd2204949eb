import { counted } from '../../records/counted.js';
import { addDaysIso, type IsoDate } from '../../records/dates.js';
import type { ClinicCapacitySettings } from '../../store/contract.js';
import { Section } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { Table } from '../parts/table.js';

type Span = { readonly from: IsoDate; readonly to: IsoDate };

/** The half year ahead, week by week: slots, and what takes them away. */
export function WeeksAhead(props: {
  /** Slots by week (Monday). */
  weeks: ReadonlyMap<IsoDate, number>;
  stored: ClinicCapacitySettings;
}) {
  const { weeks, stored } = props;
  const { format } = usePage();
  const usual = Math.max(...weeks.values());
  const inWeek = (monday: IsoDate) => (span: Span) => span.from <= addDaysIso(monday, 6) && span.to >= monday;
  const daysOf = (n: number) => counted(n, 'day');
  const notes = (monday: IsoDate): string => {
    const within = inWeek(monday);
    const closed = stored.closures.filter((day) => within({ from: day, to: day })).length;
    return [
      ...stored.holidays.filter(within).map((h) => h.name || 'school holidays'),
      closed > 0 ? `clinic closed ${daysOf(closed)}` : '',
      stored.workshopClosures.some(within) ? 'workshop closed' : '',
      ...stored.clinicians.filter((c) => c.away.some(within)).map((c) => `${c.name} away`),
    ]
      .filter((words) => words !== '')
      .join(', ');
  };
  return (
    <Section id="weeks" title="The weeks ahead, as saved" class="card">
      <details open>
        <summary>
          {weeks.size} weeks, {[...weeks.values()].filter((slots) => slots < usual).length} of them with fewer
          slots than the {usual} usual
        </summary>
        <Table
          class="weeks"
          scroll="Weeks ahead"
          rows={[...weeks]}
          columns={[
            ['Week of', ([monday]) => format.date(monday)],
            [
              'Slots',
              ([, slots]) => (slots < usual ? <strong>{`${slots} of ${usual}`}</strong> : slots),
              'number',
            ],
            ['Holidays, closed, away', ([monday]) => notes(monday)],
          ]}
        />
      </details>
    </Section>
  );
}
