import { acceptedBy } from '../../records/check/accepted-by.js';
import { type Device, deviceEventRecord, verdicts } from '../../records/device.js';
import { skinCheckFields, skinStates } from '../../records/skin-check.js';
import { typedAngle } from './typed-size.js';
import type { Judged, TypedVisit } from './typed-visit.js';

export const judgedField = (
  deviceId: string,
  what: 'skin' | 'minutes' | 'where' | 'verdict' | 'hipAngleLeft' | 'hipAngleRight' | 'note',
): string => `${what}/${deviceId}`;

/** The skin checks and verdicts of a submitted visit, device by device; what is wrong goes to the visit's errors. */
export function readJudgements(
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
