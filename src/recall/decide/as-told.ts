import { isOfDevice } from '../../forecast/flags/finding.js';
import type { ChildRecord } from '../../records/caseload.js';
import { addDaysIso } from '../../records/dates.js';
import { isWorn } from '../../records/device-history.js';
import { lastHipAngle } from '../../records/hip-angle.js';
import { castIsDue, saidTight, saidToFit } from './cast-unseen.js';
import { choose, type Rule } from './choice.js';
import type { DeviceFacts } from './device-facts.js';
import { FIRST_LOOK_DAYS } from './first-look.js';

/** Something was seen that cannot wait. */
export const seeNow: Rule = ({ flags, device, rule, record, today }) => {
  const flag = flags.find(
    (f) =>
      f.severity === 'act-now' &&
      (f.deviceId === null
        ? f.series?.measure !== 'head_circumference' || rule?.region === 'head'
        : f.deviceId === device.id || !isStillWorn(f.deviceId, record)),
  );
  return flag ? choose('see-now', today, 'red-flag', { flag: flag.id }) : null;
};

/** What was seen under a device that has ended is of the child: the skin has not healed because another is worn. */
const isStillWorn = (deviceId: string, { devices, events }: ChildRecord): boolean =>
  devices.some((d) => d.id === deviceId && isWorn(d, events));

/** Recorded as broken or lost, or said so in a note. */
export const repair: Rule = ({ history, flags, device, today }) => {
  if (history.lostOn) return choose('repair', today, 'lost', { on: history.lostOn });
  if (history.brokenOn) return choose('repair', today, 'broken', { on: history.brokenOn });
  const said = flags.find(
    (f) => f.deviceId === device.id && f.finding && isOfDevice(f.finding.kind),
  )?.finding;
  return said ? choose('repair', today, said.kind === 'lost' ? 'lost' : 'broken', { on: said.date }) : null;
};

/** What a later word of a reviewer answers; a treatment to come only a later visit does. */
const openFindings = ({ flags, device, forecast }: DeviceFacts) => {
  const fits = saidToFit(forecast);
  return flags
    .filter((f) => f.severity === 'check' && f.deviceId === device.id)
    .flatMap((f) => f.finding ?? [])
    .filter(({ kind, date }) => date > fits || (date === fits && kind === 'treatment-planned'));
};
const ofTreatment = ['fit-changed', 'treatment-planned'];

/** Surgery, toxin, tone or contracture change what it must fit, which growth does not know: looked at before anything is cast. */
export const fitChanged: Rule = (facts) => {
  // A reviewer who called it tight has looked at it, where that is answered.
  const answered =
    castIsDue(facts) || [facts.adjust, facts.part].some((step) => step && step.by <= facts.until);
  const looked = (answered && saidTight(facts)) || '';
  const found = openFindings(facts).find(
    (f) => ofTreatment.includes(f.kind) && (f.kind === 'treatment-planned' || f.date > looked),
  );
  return found ? choose('check', facts.today, 'fit-changed', { on: found.date }) : null;
};

/** It no longer holds the hips where it was set to. */
export const hipAngleOff: Rule = ({ device, history, today }) => {
  const angle = lastHipAngle(device, history.since);
  return angle?.isOff ? choose('check', today, 'hip-angle-off', { on: angle.date }) : null;
};

/** Let out by an amount nobody noted: seen like a device just fitted, within four weeks, and at the latest at the review. */
export const amountUnknown: Rule = ({ history, reviewBy, until }) => {
  const on = history.amountUnknownOn;
  if (on === null) return null;
  const by = [addDaysIso(on, FIRST_LOOK_DAYS), reviewBy].sort()[0];
  return by > until ? null : choose('check', by, 'amount-unknown', { on });
};

/** A mark or falls that were told and not judged since. */
export const noted: Rule = (facts) => {
  const found = openFindings(facts).find((f) => !ofTreatment.includes(f.kind));
  return found ? choose('check', facts.today, 'noted', { on: found.date }) : null;
};
