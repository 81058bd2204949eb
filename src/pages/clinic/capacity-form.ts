import { DoorpostError } from '../../errors.js';
import { addDaysIso, type IsoDate, isIsoDate } from '../../records/dates.js';
import {
  type ClinicCapacitySettings,
  clinicCapacitySettings,
} from '../../service/api/schemas/clinic-settings.js';
import type { Form } from '../parts/route-types.js';

export const WEEK_DAYS = [1, 2, 3, 4, 5, 6, 7] as const;
/** A closed span is kept as days; nobody closes for longer in one line. */
const LONGEST_SPAN_DAYS = 366;

/** The fields of the page for a capacity; rows are numbered from 0 on. */
export function capacityForm(capacity: ClinicCapacitySettings): Form {
  const form: Record<string, string> = {
    castingSlotsPerWeek: String(capacity.castingSlotsPerWeek),
    holidays: capacity.holidays.map((h) => `${spanLine(h)} ${h.name}`.trim()).join('\n'),
    closures: spansOf(capacity.closures).map(spanLine).join('\n'),
    workshopClosures: capacity.workshopClosures.map(spanLine).join('\n'),
  };
  capacity.clinicians.forEach((c, k) => {
    form[`clinician-${k}-name`] = c.name;
    form[`clinician-${k}-any`] = c.slotsPerWeek ? String(c.slotsPerWeek) : '';
    for (const { weekday, slots } of c.slotsByWeekday) form[`clinician-${k}-${weekday}`] = String(slots);
    form[`clinician-${k}-away`] = c.away.map(spanLine).join('\n');
  });
  capacity.workshop.forEach((w, k) => {
    form[`workshop-${k}-jobs`] = String(w.jobsPerWeek);
    for (const family of w.families) form[`workshop-${k}-family-${family}`] = 'yes';
  });
  return form;
}

/** How many rows of a kind a form has, counting the last one with anything in it. */
export const rowsOf = (form: Form, kind: 'clinician' | 'workshop'): number =>
  Math.max(
    0,
    ...Object.keys(form).map((name) => 1 + Number(new RegExp(`^${kind}-(\\d+)-`).exec(name)?.[1] ?? -1)),
  );

/** What was entered; throws one 'invalid-value' that names every row and field it cannot take. Rows left empty are no rows. */
export function readCapacity(form: Form): ClinicCapacitySettings {
  const problems: DoorpostError[] = [];
  const note: Note = (problem) => void problems.push(problem);
  const text = (name: string) => (form[name] ?? '').trim();
  const clinicians = Array.from({ length: rowsOf(form, 'clinician') }, (_, k) => {
    const field = (name: string) => text(`clinician-${k}-${name}`);
    const filled = ['any', 'away', ...WEEK_DAYS].some((name) => field(String(name)) !== '');
    if (field('name') === '' && !filled) return [];
    if (field('name') === '')
      note(refused(`Clinician, row ${k + 1}: name`, '', 'a name, or the row left empty'));
    const where = `Slots of ${field('name')}`;
    return [
      {
        name: field('name'),
        slotsPerWeek: wholeNumber(note, `${where}, any day`, field('any') || '0', 1000),
        slotsByWeekday: WEEK_DAYS.flatMap((weekday) => {
          const slots = wholeNumber(note, `${where}, day ${weekday}`, field(String(weekday)) || '0', 100);
          return slots > 0 ? [{ weekday, slots }] : [];
        }),
        away: readSpans(note, `${field('name')} away`, field('away')).map(({ from, to }) => ({ from, to })),
      },
    ];
  }).flat();
  const workshop = Array.from({ length: rowsOf(form, 'workshop') }, (_, k) => {
    const start = `workshop-${k}-family-`;
    const families = Object.keys(form).flatMap((name) =>
      name.startsWith(start) ? [name.slice(start.length)] : [],
    );
    const jobs = text(`workshop-${k}-jobs`);
    if (jobs === '' && families.length === 0) return [];
    return [{ families, jobsPerWeek: wholeNumber(note, `Workshop, row ${k + 1}: jobs a week`, jobs, 5000) }];
  }).flat();
  const capacity = {
    castingSlotsPerWeek: wholeNumber(note, 'Casting slots a week', text('castingSlotsPerWeek'), 1000),
    clinicians,
    workshop,
    holidays: readSpans(note, 'School holidays', text('holidays')),
    closures: [...new Set(readSpans(note, 'Clinic closed', text('closures')).flatMap(daysOf))].sort(),
    workshopClosures: readSpans(note, 'Workshop closed', text('workshopClosures')).map(({ from, to }) => ({
      from,
      to,
    })),
  };
  if (problems.length === 1) throw problems[0];
  if (problems.length > 1) throw allOf(problems);
  const checked = clinicCapacitySettings.safeParse(capacity);
  if (checked.success) return checked.data;
  const [issue] = checked.error.issues;
  throw refused(issue.path.join(' '), '', issue.message);
}

interface NamedSpan {
  readonly from: IsoDate;
  readonly to: IsoDate;
  readonly name: string;
}

/** A line each: '2026-12-21', '2026-12-21 to 2027-01-03', with a name after it. */
function readSpans(note: Note, field: string, text: string): NamedSpan[] {
  return text.split('\n').flatMap((raw, i) => {
    const line = raw.trim();
    if (line === '') return [];
    const [, from, to = from, name] = /^(\S+)(?:\s+(?:to|until|-|–)\s+(\S+))?(?:\s+(.+))?$/.exec(line) ?? [];
    const where = `${field}, line ${i + 1}`;
    const accepted = "'2026-12-21' or '2026-12-21 to 2027-01-03', at most a year";
    if (!isIsoDate(from) || !isIsoDate(to) || to < from || to > addDaysIso(from, LONGEST_SPAN_DAYS)) {
      note(refused(where, line, accepted));
      return [];
    }
    return [{ from, to, name: (name ?? '').slice(0, 80) }];
  });
}

const spanLine = ({ from, to }: { from: IsoDate; to: IsoDate }) => (from === to ? from : `${from} to ${to}`);

function daysOf({ from, to }: NamedSpan): IsoDate[] {
  const days: IsoDate[] = [];
  for (let day = from; day <= to; day = addDaysIso(day, 1)) days.push(day);
  return days;
}

/** Days as spans, days that follow each other together. */
function spansOf(days: readonly IsoDate[]): { from: IsoDate; to: IsoDate }[] {
  const spans: { from: IsoDate; to: IsoDate }[] = [];
  for (const day of [...new Set(days)].sort()) {
    const last = spans.at(-1);
    if (last && addDaysIso(last.to, 1) === day) last.to = day;
    else spans.push({ from: day, to: day });
  }
  return spans;
}

function wholeNumber(note: Note, field: string, given: string, most: number): number {
  if (/^\d+$/.test(given) && Number(given) <= most) return Number(given);
  note(refused(field, given, `a whole number from 0 to ${most}`));
  return 0;
}

const refused = (field: string, given: string, accepted: string) =>
  new DoorpostError('invalid-value', `${field}: '${given}' is not accepted`, { field, given, accepted });

type Note = (problem: DoorpostError) => void;

/** Everything that has to be mended, at once. */
const allOf = (problems: readonly DoorpostError[]) =>
  new DoorpostError(
    'invalid-value',
    problems.map((p) => `${p.message} (accepted: ${p.place.accepted})`).join('. '),
    { field: String(problems[0].place.field) },
  );
