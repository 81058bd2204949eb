import { type AboutField, madeId, ofChild, ofDevice } from './about-field.js';
import {
  type Device,
  type DeviceEvent,
  familyIds,
  type StageId,
  stageIds,
  type WorkshopJob,
} from './device.js';
import { measureIds } from './measure.js';
import type { MaturityMarker, Measurement } from './records.js';
import { FADES_WITHIN_MINUTES, type SkinCheck } from './skin-check.js';

/** Fields of a record that are a column each; maps of sizes and a clinic's own columns go by their own headings. */
type FieldsOf<R, Maps extends keyof R = never> = Readonly<
  Record<Exclude<keyof R, Maps | 'extra'> & string, AboutField>
>;

const OF_MEASURES = `one of ${measureIds.join(', ')}`;
const SIDE_OR_NOTHING = 'left, right, none or empty';
const DEGREES = 'degrees of abduction from the midline, 0 to 90, or empty';
const note: AboutField = { label: 'Note', aliases: ['notes', 'comment'] };

/** `unit` is of a file alone: the record has mm, or kg. */
export const measurementFields: FieldsOf<Measurement> & Readonly<Record<'unit', AboutField>> = {
  id: madeId('measurement_id'),
  childId: ofChild,
  date: { aliases: ['measured_on', 'visit_date', 'measurement_date', 'visit'] },
  measure: { accepted: OF_MEASURES, aliases: ['dimension', 'what'], mayLack: true },
  side: {
    accepted: 'left or right for a measure of one side; empty or none for one of the whole body',
    aliases: ['laterality'],
    mayLack: true,
  },
  value: {
    label: 'Right value',
    accepted: 'a number such as 175, 17.5 or 17,5, with its unit unless unit says it',
    aliases: ['reading', 'size'],
    mayLack: true,
  },
  unit: { accepted: 'mm, cm, m, inch or ft; kg, g or lb for weight', aliases: ['units'], mayLack: true },
  method: { accepted: 'gauge, tape, scan, x-ray, parent or other text', aliases: ['instrument'] },
  observer: { label: 'Measured by', aliases: ['measured_by'] },
  technicalError: {
    accepted: "SD of one reading in the measure's own unit (mm; kg for weight)",
    aliases: ['tem'],
  },
  entered: { accepted: 'what was first typed, kept as text' },
};

export const markerFields: FieldsOf<MaturityMarker> = {
  id: madeId('marker_id'),
  childId: ofChild,
  date: {},
  kind: { aliases: ['marker'] },
  value: {
    accepted: 'years for bone-age and maturity-offset, 1 to 8 for hand-stage, 0 to 5 for pelvis-stage',
  },
  sdYears: { accepted: 'a number above 0, or empty', aliases: ['sd'] },
};

export const deviceFields: FieldsOf<Device, 'allowancesMm' | 'limitsMm' | 'extensionRangeMm'> = {
  id: madeId('device_id'),
  childId: ofChild,
  family: {
    label: 'What is it?',
    accepted: `one of ${familyIds.join(', ')}`,
    aliases: ['device', 'type', 'device_family', 'device_type'],
  },
  side: {
    label: 'Side',
    accepted: 'left or right; both for a frame over both legs; none for trunk or head',
    otherwise: 'none',
    aliases: ['laterality'],
    mayLack: true,
  },
  castDate: { label: 'Cast or scanned on', aliases: ['cast', 'cast_on', 'scan_date'] },
  fittedDate: {
    label: 'Fitted on',
    hint: 'empty while it is being made',
    empty: 'empty until fitted',
    aliases: ['fitted', 'fitted_on', 'delivered', 'fit_date'],
  },
  status: { label: 'State', empty: 'empty for worn when fitted, ordered when not' },
  footplate: { label: 'Footplate', empty: 'empty for full' },
  hipAngleFrom: { label: 'Hip abduction set from, °', accepted: DEGREES },
  hipAngleTo: { label: 'Hip abduction set to, °', accepted: DEGREES },
  replaces: {
    label: 'Takes the place of',
    accepted: 'the id of the device whose place it takes, or empty',
    aliases: ['replaces_device'],
  },
};

export const eventFields: FieldsOf<DeviceEvent> = {
  id: madeId('event_id'),
  deviceId: ofDevice,
  date: { label: 'Date', aliases: ['event_date'] },
  kind: { label: 'What', aliases: ['event'] },
  measure: {
    label: 'Dimension',
    accepted: `${OF_MEASURES}, or empty for the whole device`,
    aliases: ['dimension'],
  },
  side: { label: 'Side', accepted: SIDE_OR_NOTHING },
  changeMm: {
    label: 'Room gained, mm',
    accepted: 'room gained in mm, as a number; empty where nobody noted it',
    aliases: ['change'],
  },
  adjustment: { label: 'How' },
  verdict: { label: 'Fit', empty: 'may be empty beside a note', aliases: ['fit_verdict'] },
  hipAngleLeft: { label: 'Left hip abduction, °', accepted: DEGREES },
  hipAngleRight: { label: 'Right hip abduction, °', accepted: DEGREES },
  endReason: { label: 'Why no longer worn', aliases: ['why_ended'], empty: 'with retired alone, or empty' },
  note,
};

export const skinFields: FieldsOf<SkinCheck> = {
  id: madeId('skin_check_id'),
  childId: ofChild,
  deviceId: { ...ofDevice, accepted: 'an id in devices, or empty' },
  date: { aliases: ['checked_on'] },
  state: {
    label: 'Skin under it',
    empty: `fades within ${FADES_WITHIN_MINUTES} minutes or lasts longer`,
    aliases: ['skin'],
  },
  minutes: {
    label: 'Minutes until it faded',
    accepted: 'whole minutes until it faded, or that it has lasted so far; or empty',
  },
  where: { label: 'Where', accepted: 'the place on the body, as text', aliases: ['place', 'site'] },
  side: { accepted: SIDE_OR_NOTHING },
  cannotWarn: { accepted: 'yes where the skin there does not feel; empty for no', aliases: ['insensate'] },
  observer: { aliases: ['seen_by'] },
  note,
};

const stageField = (stage: StageId): AboutField => ({
  aliases: [`${stage}_date`],
  empty: 'not before the stage ahead of it',
});

/** A column a stage. */
export const jobFields: Readonly<Record<Exclude<keyof WorkshopJob, 'stages'> | StageId, AboutField>> = {
  id: madeId('job_id'),
  deviceId: ofDevice,
  family: {
    accepted: `one of ${familyIds.join(', ')}`,
    empty: "empty for the device's own",
    mayLack: true,
  },
  ...(Object.fromEntries(stageIds.map((stage) => [stage, stageField(stage)])) as Record<StageId, AboutField>),
  status: { empty: 'empty to read it off the stages' },
};
