/**
 * The columns doorpost reads, table by table: what `doorpost columns` prints and what a refusal quotes.
 * A heading is matched without regard to case, spaces and punctuation; columns named here are read,
 * every other column is kept with its row and written back.
 */
import { growthHormoneColumns } from '../../forecast/record-until.js';
import { adjustmentKinds, endReasons, familyIds, stageIds } from '../../records/device.js';
import { measureIds } from '../../records/measure.js';
import { conditionIds } from '../../records/records.js';
import { FADES_WITHIN_MINUTES, skinStates } from '../../records/skin-check.js';

export const tableNames = [
  'children',
  'measurements',
  'devices',
  'events',
  'markers',
  'jobs',
  'skin',
] as const;
export type TableName = (typeof tableNames)[number];

export interface Column {
  readonly name: string;
  readonly required: boolean;
  /** What is accepted, as a refusal quotes it. */
  readonly accepted: string;
  readonly aliases: readonly string[];
}

const DATE =
  'a date as 2024-03-17 or 17.03.2024, 17/03/2024 where only one reading is possible, an Excel date';
const YES_NO = 'yes or no (true, false, 1, 0)';
const TEXT = 'text';
const ID = '1 to 80 characters, unique in its table';

const c = (name: string, accepted: string, aliases: readonly string[] = [], required = false): Column => ({
  name,
  required,
  accepted,
  aliases,
});
const must = (name: string, accepted: string, aliases: readonly string[] = []): Column =>
  c(name, accepted, aliases, true);

export const columns: Readonly<Record<TableName, readonly Column[]>> = {
  children: [
    must('id', ID, ['child_id', 'child', 'patient_id', 'patient']),
    c('name', TEXT, ['child_name', 'full_name']),
    must('birth_date', DATE, ['date_of_birth', 'dob', 'birthdate', 'born']),
    must('sex', 'female, male or unknown (f, m, girl, boy); empty for unknown', ['gender']),
    c('gestation_weeks', '22 to 44 completed weeks at birth, empty when unknown', ['gestation']),
    c('conditions', `any of ${conditionIds.join(', ')}, separated by |`, ['condition', 'diagnosis']),
    c('affected_side', 'left, right, both or none'),
    c('insensate_skin', YES_NO, ['insensate']),
    c('latex_alert', YES_NO, ['latex', 'latex_allergy']),
    c('palliative', YES_NO),
    c('walks', `${YES_NO}; empty for yes`, ['ambulant', 'walking']),
    c('sibling_group', 'the same text for children to call together', ['siblings', 'family_group']),
    c('transport_days', 'weekdays as mon|thu or 1|4; empty for any day'),
    c('prefers_holidays', YES_NO),
    c('clinician', 'who sees the child, by the name the clinic has set; empty for any'),
    c('contact', TEXT, ['phone', 'carer_contact']),
    c('language', 'a language code, empty for en'),
    c('status', 'active, moved-away, discharged or died; empty for active'),
  ],
  measurements: [
    c('id', `${ID}; made from the row when empty`, ['measurement_id']),
    must('child_id', 'an id in children', ['child', 'patient_id', 'patient']),
    must('date', DATE, ['measured_on', 'visit_date', 'measurement_date', 'visit']),
    c('measure', `one of ${measureIds.join(', ')}`, ['dimension', 'what']),
    c('side', 'left or right for a measure of one side; empty or none for one of the whole body', [
      'laterality',
    ]),
    c('value', 'a number such as 175, 17.5 or 17,5, with its unit unless unit says it', ['reading', 'size']),
    c('unit', 'mm, cm, m, inch or ft; kg, g or lb for weight', ['units']),
    c('method', 'gauge, tape, scan, x-ray, parent or other text', ['instrument']),
    c('observer', TEXT, ['measured_by']),
    c('technical_error', "SD of one reading in the measure's own unit (mm; kg for weight)", ['tem']),
    c('entered', 'what was first typed, kept as text'),
  ],
  devices: [
    c('id', `${ID}; made from the row when empty`, ['device_id']),
    must('child_id', 'an id in children', ['child', 'patient_id', 'patient']),
    must('family', `one of ${familyIds.join(', ')}`, ['device', 'type', 'device_family', 'device_type']),
    c('side', 'left or right; both for a frame over both legs; none for trunk or head', ['laterality']),
    must('cast_date', DATE, ['cast', 'cast_on', 'scan_date']),
    c('fitted_date', `${DATE}; empty until fitted`, ['fitted', 'fitted_on', 'delivered', 'fit_date']),
    c('status', 'ordered, worn or retired; empty for worn when fitted, ordered when not'),
    c('footplate', 'full, behind-toes or none; empty for full'),
    c('replaces', 'the id of the device whose place it takes, or empty', ['replaces_device']),
  ],
  events: [
    c('id', `${ID}; made from the row when empty`, ['event_id']),
    must('device_id', 'an id in devices', ['device']),
    must('date', DATE, ['event_date']),
    must('kind', 'cast, delivered, adjusted, re-cast, broken, lost, retired or verdict', ['event']),
    c('measure', `one of ${measureIds.join(', ')}, or empty for the whole device`, ['dimension']),
    c('side', 'left, right, none or empty'),
    c('change_mm', 'room gained in mm, as a number', ['change']),
    c('adjustment', `${adjustmentKinds.join(', ')} or other`),
    c('verdict', 'loose, good, tight or outgrown; may be empty beside a note', ['fit_verdict']),
    c('end_reason', `with retired: ${endReasons.join(', ')}, or empty`, ['why_ended']),
    c('note', TEXT, ['notes', 'comment']),
  ],
  markers: [
    c('id', `${ID}; made from the row when empty`, ['marker_id']),
    must('child_id', 'an id in children', ['child', 'patient_id', 'patient']),
    must('date', DATE),
    must('kind', 'bone-age, menarche, hand-stage, pelvis-stage, pre-pubertal or maturity-offset', ['marker']),
    c('value', 'years for bone-age and maturity-offset, 1 to 8 for hand-stage, 0 to 5 for pelvis-stage'),
    c('sd_years', 'a number above 0, or empty', ['sd']),
  ],
  skin: [
    c('id', `${ID}; made from the row when empty`, ['skin_check_id']),
    must('child_id', 'an id in children', ['child', 'patient_id', 'patient']),
    c('device_id', 'an id in devices, or empty', ['device']),
    must('date', DATE, ['checked_on']),
    must('state', `${skinStates.join(', ')}: fades within ${FADES_WITHIN_MINUTES} minutes or lasts longer`, [
      'skin',
    ]),
    c('minutes', 'whole minutes until it faded, or that it has lasted so far; or empty'),
    c('where', 'the place on the body, as text', ['place', 'site']),
    c('side', 'left, right, none or empty'),
    c('cannot_warn', 'yes where the skin there does not feel; empty for no', ['insensate']),
    c('observer', TEXT, ['seen_by']),
    c('note', TEXT, ['notes', 'comment']),
  ],
  jobs: [
    c('id', `${ID}; made from the row when empty`, ['job_id']),
    must('device_id', 'an id in devices', ['device']),
    c('family', `one of ${familyIds.join(', ')}; empty for the device's own`),
    ...stageIds.map((stage) => c(stage, `${DATE}, not before the stage ahead of it`, [`${stage}_date`])),
    c('status', 'in-progress, fitted or cancelled; empty to read it off the stages'),
  ],
};

/** Columns whose name carries a measure and a unit; shown under the table. */
export const patternColumns: Readonly<Partial<Record<TableName, readonly string[]>>> = {
  children: [
    `${Object.values(growthHormoneColumns).join(', ')}: days on which the treatment began and ended,`,
    'as 2024-03-17; the end is empty while it goes on.',
  ],
  measurements: [
    'Or one row a visit, with a column a measure: <measure>[_left|_right][_unit], for example',
    'foot_length_left_cm, foot_length_right_cm, stature_cm, weight_kg; an empty cell is no reading.',
  ],
  devices: [
    'allowance_<measure>_mm: growth since cast the device takes, in place of the family default;',
    'limit_<measure>_mm: largest size it takes, where the maker states it;',
    'extension_<measure>_mm: extension left in the side bars when delivered. Also in cm or inch.',
  ],
};

/** 'Foot length (cm)' -> 'foot_length_cm': how headings and words of a list are compared. */
export function plainWord(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '_')
    .replace(/^_+|_+$/g, '');
}

/** The column of a table that a heading means, or null for one doorpost does not read. */
export function columnOf(table: TableName, heading: string): Column | null {
  const word = plainWord(heading);
  return (
    columns[table].find((column) => column.name === word) ??
    columns[table].find((column) => column.aliases.includes(word)) ??
    null
  );
}
