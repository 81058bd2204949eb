import { likelyTyped } from '../../forecast/suggestions/likely-typed.js';
import { decimalAgeYears } from '../../records/age.js';
import { acceptedBy } from '../../records/check/accepted-by.js';
import { isIsoDate } from '../../records/dates.js';
import {
  type Device,
  type DeviceEvent,
  deviceEventRecord,
  type Verdict,
  verdicts,
} from '../../records/device.js';
import { type MeasureId, measures, type Side, technicalErrorAt } from '../../records/measure.js';
import { type SkinState, skinCheckFields, skinStates } from '../../records/skin-check.js';
import { fromBaseUnit } from '../../records/units.js';
import type { NewReading } from '../../store/contract.js';
import type { Format } from '../parts/format.js';
import { type ExpectedSize, expectedText, fieldName, RANGE_SD } from './expected-sizes.js';
import { type SizeUnit, sizeUnits, typedAngle, typedSize } from './typed-size.js';

/** Further from its expectation than this many standard deviations, a reading must be confirmed by a person. */
const CONFIRM_BEYOND_SD = 3;
/** Left and right are asked about when exchanging them is this much likelier, as a log likelihood ratio. */
const EXCHANGED = 3;

/**
 * A submitted visit form: readings in mm and kg, skin checks and verdicts, and for each field that is wrong or doubtful
 * the reason. The page asks this very function while a visit is being typed, so that both judge alike.
 */
export function readVisit(
  body: Readonly<Record<string, string>>,
  sizes: readonly ExpectedSize[],
  devices: readonly Device[],
  birthDate: string,
  today: string,
  format: Format,
): TypedVisit {
  const unit = sizeUnits.find((u) => u === body.unit) ?? 'mm';
  const date = body.date ?? '';
  const visit = blankVisit(date, (body.observer ?? '').slice(0, 80), unit);
  if (!isIsoDate(date)) visit.errors.date = 'Give the day as year-month-day.';
  else if (date < birthDate || date > today)
    visit.errors.date = `The day must lie between birth and today (${format.date(today)}).`;
  for (const size of sizes) readSize(body, size, visit, format);
  if (!visit.errors.date) askAboutExchange(sizes, visit, decimalAgeYears(birthDate, date));
  const judged = readJudgements(body, devices, date, visit);
  if (visit.readings.length === 0 && judged.length === 0 && Object.keys(visit.errors).length === 0)
    visit.errors.date = 'Nothing was entered: give a reading, a skin check or how a device fits.';
  return { ...visit, judged };
}

/** A visit in which nothing was typed yet. */
export const blankVisit = (date: string, observer: string, unit: SizeUnit = 'mm'): TypedVisit => ({
  ...{ date, unit, observer },
  ...{ typed: {}, readings: [], errors: {}, doubts: {}, remarks: {}, judged: [] },
});

/** One size field: its value, or why it cannot be taken or should be looked at again. */
function readSize(
  body: Readonly<Record<string, string>>,
  size: ExpectedSize,
  { unit, typed, readings, errors, doubts, remarks }: TypedVisit,
  format: Format,
): void {
  const name = fieldName(size.measure, size.side);
  const text = (body[name] ?? '').trim();
  if (text === '') return;
  typed[name] = text;
  const value = typedSize(text, size.measure, unit);
  if (value === null) {
    errors[name] = 'Not a number with a unit known here (mm, cm, in; kg, lb).';
    return;
  }
  const { unit: own, plausible } = measures[size.measure];
  const meant = meantBy(size, value);
  const ask = meant ? ` Did you mean ${inTypedUnit(meant.value, own, unit)}?` : '';
  if (value < plausible[0] || value > plausible[1]) {
    errors[name] =
      ask.trim() || `${value} ${own} is impossible; ${plausible[0]} to ${plausible[1]} ${own} are accepted.`;
    return;
  }
  readings.push({
    measure: size.measure as MeasureId,
    side: size.side as Side,
    value,
    entered: /[a-z"]/i.test(text) || own === 'kg' ? text : `${text} ${unit}`,
  });
  const judged = againstExpected(size, value, format);
  if (judged === null) return;
  const { away, than } = judged;
  if (away > CONFIRM_BEYOND_SD)
    doubts[name] = `${value} ${own} is ${than}.${ask || ' Measure again, or check unit, side and digits.'}`;
  else remarks[name] = `${sinceLast(size, value)}: ${away <= RANGE_SD ? 'as expected' : `a little ${than}`}`;
}

const meantBy = ({ measure, expected, sd }: ExpectedSize, value: number) =>
  expected === null || sd === null ? null : likelyTyped(measure, value, expected, CONFIRM_BEYOND_SD * sd);

/** How many SD it lies from what is expected, and to which side; null where nothing is expected. */
function againstExpected(size: ExpectedSize, value: number, format: Format) {
  const { expected, sd } = size;
  if (expected === null || sd === null) return null;
  const than = `${value > expected ? 'larger' : 'smaller'} than expected (${expectedText(size, format)})`;
  return { away: Math.abs(value - expected) / sd, than };
}

/** '182 mm, +3 mm since last time'. */
function sinceLast({ measure, last }: ExpectedSize, value: number): string {
  const { unit } = measures[measure];
  return `${value} ${unit}${last && unit === 'mm' ? `, ${signed(value - last.value)} mm since last time` : ''}`;
}

const signed = (mm: number) => `${mm < 0 ? '−' : '+'}${Math.abs(Math.round(mm))}`;

function inTypedUnit(value: number, own: 'mm' | 'kg', unit: SizeUnit): string {
  if (own === 'kg' || unit === 'mm') return `${value} ${own}`;
  return `${Math.round(fromBaseUnit(value, unit) * 10) / 10} ${unit} (${Math.round(value)} mm)`;
}

/**
 * Left and right exchanged at this visit? The difference typed, g, against the one the record leads one to expect, u,
 * both with the measuring error s of two readings: exchanged rather than as typed has log likelihood ratio -2 g u / s^2.
 */
function askAboutExchange(sizes: readonly ExpectedSize[], visit: TypedVisit, ageYears: number): void {
  for (const left of sizes.filter((s) => s.side === 'left' && s.expected !== null)) {
    const right = sizes.find((s) => s.measure === left.measure && s.side === 'right' && s.expected !== null);
    const typed = (side: string) =>
      visit.readings.find((r) => r.measure === left.measure && r.side === side)?.value;
    const [l, r] = [typed('left'), typed('right')];
    if (!right || l === undefined || r === undefined) continue;
    const usual = left.expected! - right.expected!;
    const variance = 2 * technicalErrorAt(left.measure, ageYears) ** 2;
    if ((-2 * (l - r) * usual) / variance < EXCHANGED) continue;
    const longer = usual > 0 ? 'left' : 'right';
    const said = `Left and right look exchanged: at the other visits the ${longer} was larger, by about ${Math.round(Math.abs(usual))} mm.`;
    for (const size of [left, right]) visit.doubts[fieldName(size.measure, size.side)] = said;
  }
}

/** What a person saw of one device at a visit: the skin under it, and how it fits. */
interface Judged extends Pick<DeviceEvent, 'hipAngleLeft' | 'hipAngleRight'> {
  readonly device: Device;
  readonly skin: {
    readonly state: SkinState;
    readonly minutes: number | null;
    readonly where: string;
  } | null;
  readonly verdict: Verdict | null;
  readonly note: string;
}

export interface TypedVisit {
  readonly date: string;
  readonly unit: SizeUnit;
  readonly observer: string;
  readonly typed: Record<string, string>;
  readonly readings: NewReading[];
  readonly judged: readonly Judged[];
  /** Fields that cannot be accepted, with the reason. */
  readonly errors: Record<string, string>;
  /** Fields to be confirmed by a person before they are saved. */
  readonly doubts: Record<string, string>;
  /** What else is worth saying beside a field. */
  readonly remarks: Record<string, string>;
}

export const judgedField = (
  deviceId: string,
  what: 'skin' | 'minutes' | 'where' | 'verdict' | 'hipAngleLeft' | 'hipAngleRight' | 'note',
): string => `${what}/${deviceId}`;

/** The skin checks and verdicts of a submitted visit, device by device; what is wrong goes to the visit's errors. */
function readJudgements(
  body: Readonly<Record<string, string>>,
  devices: readonly Device[],
  date: string,
  { typed, errors }: Pick<TypedVisit, 'typed' | 'errors'>,
): Judged[] {
  return devices.flatMap((device): Judged[] => {
    const given = givenOf(body, device.id, typed);
    const state = skinStates.find((s) => s === given('skin')) ?? null;
    const verdict = verdicts.find((v) => v === given('verdict')) ?? null;
    const [minutesText, where, note] = [given('minutes'), given('where'), given('note')];
    if (state === null && minutesText + where !== '')
      errors[judgedField(device.id, 'skin')] = 'Say how the skin was.';
    const [hipAngleLeft, hipAngleRight] = [
      typedAngle(given('hipAngleLeft')),
      typedAngle(given('hipAngleRight')),
    ];
    const told = verdict !== null || note !== '' || hipAngleLeft !== null || hipAngleRight !== null;
    if (told && date < device.castDate)
      errors[judgedField(device.id, 'verdict')] = `It was cast on ${device.castDate}, after this visit.`;
    if (state === null && !told) return [];
    const minutes = minutesText === '' ? null : Number(minutesText);
    Object.assign(errors, refusedOf(device.id, { minutes, where, note, hipAngleLeft, hipAngleRight }));
    return [{ device, skin: state && { state, minutes, where }, verdict, hipAngleLeft, hipAngleRight, note }];
  });
}

/** What was typed into a field of this device; kept, to fill the form again. */
const givenOf =
  (body: Readonly<Record<string, string>>, deviceId: string, typed: Record<string, string>) =>
  (what: Parameters<typeof judgedField>[1]): string => {
    const name = judgedField(deviceId, what);
    const text = (body[name] ?? '').trim();
    if (text !== '') typed[name] = text;
    return text;
  };

const judgedRecord = skinCheckFields
  .pick({ minutes: true, where: true, note: true })
  .extend(deviceEventRecord.pick({ hipAngleLeft: true, hipAngleRight: true }).shape);

function refusedOf(deviceId: string, said: Readonly<Record<string, unknown>>) {
  const { error } = judgedRecord.safeParse(said);
  const issues = error?.issues ?? [];
  return Object.fromEntries(
    issues.map((i) => [judgedField(deviceId, i.path[0] as 'note'), `Accepted is ${acceptedBy(i)}.`]),
  );
}
