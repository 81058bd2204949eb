import { DoorpostError } from '../../errors.js';
import { addDaysIso, type IsoDate, isIsoDate } from '../../records/dates.js';
import { type ClinicCapacitySettings, clinicCapacitySettings } from '../../store/contract.js';
import type { Fields } from '../parts/pages-of.js';

export const WEEK_DAYS = [1, 2, 3, 4, 5, 6, 7] as const;
/** A closed span is kept as days; nobody closes for longer in one line. */
const LONGEST_SPAN_DAYS = 366;

/** The fields of the page for a capacity; rows are numbered from 0 on. */
export function capacityForm(capacity: ClinicCapacitySettings): Fields {
  const form: Record<string, string> = {
    castingSlotsPerWeek: String(capacity.castingSlotsPerWeek),
    ...spanFields('holidays', capacity.holidays),
    ...spanFields('closures', spansOf(capacity.closures)),
    ...spanFields('workshopClosures', capacity.workshopClosures),
  };
  capacity.clinicians.forEach((c, k) => {
    form[`clinician-${k}-name`] = c.name;
    form[`clinician-${k}-any`] = c.slotsPerWeek ? String(c.slotsPerWeek) : '';
    for (const { weekday, slots } of c.slotsByWeekday) form[`clinician-${k}-${weekday}`] = String(slots);
    Object.assign(form, spanFields(`clinician-${k}-away`, c.away));
  });
  capacity.workshop.forEach((w, k) => {
    form[`workshop-${k}-jobs`] = String(w.jobsPerWeek);
    for (const family of w.families) form[`workshop-${k}-family-${family}`] = 'yes';
  });
  return form;
}

/** How many rows of a kind a form has, counting the last one with anything in it. */
export function rowsOf(form: Fields, kind: string): number {
  const row = new RegExp(`^${kind}-(\\d+)-`);
  return Math.max(
    0,
    ...Object.keys(form).map((name) => (form[name] === '' ? 0 : 1 + Number(row.exec(name)?.[1] ?? -1))),
  );
}

/** What was entered; throws one 'invalid-value' that names every row and field it cannot take. Rows left empty are no rows. */
export function readCapacity(form: Fields): ClinicCapacitySettings {
  const problems: DoorpostError[] = [];
  const note: Note = (problem) => void problems.push(problem);
  const text = (name: string) => (form[name] ?? '').trim();
  const clinicians = Array.from({ length: rowsOf(form, 'clinician') }, (_, k) => {
    const field = (name: string) => text(`clinician-${k}-${name}`);
    const away = readSpans(note, `${field('name')} away`, form, `clinician-${k}-away`);
    const filled = away.length > 0 || ['any', ...WEEK_DAYS].some((name) => field(String(name)) !== '');
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
        away: away.map(({ from, to }) => ({ from, to })),
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
    holidays: readSpans(note, 'School holidays', form, 'holidays'),
    closures: [...new Set(readSpans(note, 'Clinic closed', form, 'closures').flatMap(daysOf))].sort(),
    workshopClosures: readSpans(note, 'Workshop closed', form, 'workshopClosures').map(({ from, to }) => ({
      from,
      to,
    })),
  };
  if (problems.length > 0) throw new CapacityRefused(problems);
  const checked = clinicCapacitySettings.safeParse(capacity);
  if (checked.success) return checked.data;
  const [issue] = checked.error.issues;
  throw new CapacityRefused([refused(issue.path.join(' '), '', issue.message)]);
}

interface NamedSpan {
  readonly from: IsoDate;
  readonly to: IsoDate;
  readonly name: string;
}

/** The fields of a list of days: first, last, and a name where there is one. */
function spanFields(
  kind: string,
  spans: readonly { readonly from: IsoDate; readonly to: IsoDate; readonly name?: string }[],
): Fields {
  return Object.fromEntries(
    spans.flatMap(({ from, to, name }, k) => [
      [`${kind}-${k}-from`, from],
      [`${kind}-${k}-to`, to],
      ...(name ? [[`${kind}-${k}-name`, name]] : []),
    ]),
  );
}

/** One row each; without a last day it is the first day alone. Rows left empty are no rows. */
function readSpans(note: Note, field: string, form: Fields, kind: string): NamedSpan[] {
  return Array.from({ length: rowsOf(form, kind) }, (_, k) => {
    const text = (name: string) => (form[`${kind}-${k}-${name}`] ?? '').trim();
    const [from, to, name] = [text('from'), text('to') || text('from'), text('name')];
    if (from === '' && to === '' && name === '') return [];
    const given = [from, to].filter((day) => day !== '').join(' to ');
    const where = `${field}, row ${k + 1}`;
    if (!isIsoDate(from) || !isIsoDate(to))
      note(refused(where, given, 'a first day such as 2026-12-21, and a last day or none'));
    else if (to < from) note(refused(where, given, 'a last day that is not before the first'));
    else if (to > addDaysIso(from, LONGEST_SPAN_DAYS)) note(refused(where, given, 'at most a year'));
    else return [{ from, to, name: name.slice(0, 80) }];
    return [];
  }).flat();
}

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
export class CapacityRefused extends DoorpostError {
  readonly problems: readonly string[];
  constructor(refusals: readonly DoorpostError[]) {
    const problems = refusals.map((r) => `${r.message}. Accepted: ${r.place.accepted}.`);
    super('invalid-value', problems.join(' '), refusals[0].place);
    this.problems = problems;
  }
}
