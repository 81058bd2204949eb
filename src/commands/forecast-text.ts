import { deviceLabel } from '../charts/device-label.js';
import type { DataSuggestion, DeviceForecast, Flag } from '../forecast/contract.js';
import { adjusting, capital, plainDate, plainSeries } from '../forecast/words.js';
import { castByOf, type DeviceDecision, isBeingMade, type TurnaroundEstimate } from '../recall/contract.js';
import { decimalAgeYears } from '../records/age.js';
import type { ChildRecord } from '../records/caseload.js';
import type { IsoDate } from '../records/dates.js';
import type { Device } from '../records/device.js';
import { actionNames } from '../words/action-names.js';
import { clinicianWhy } from '../words/clinician-reason.js';
import { outcomeNames } from '../words/outcome-names.js';
import type { Assessed } from './assess.js';
import { childWords } from './child-words.js';
import { textTable, wrap } from './terminal.js';

const WIDTH = 110;

/** One row a device in use: when it is outgrown, by what, how much room is left, and by when to cast. */
export function forecastTable({ records, assessments, decisions, recall, today }: Assessed): string {
  const nameOf = childWords(records.map(({ child }) => child));
  const replaced = new Set(recall.inProgress.map(({ deviceId }) => deviceId));
  const rows = records.flatMap((record) => {
    const forecasts = assessments.get(record.child.id)?.forecasts ?? [];
    return forecasts
      .filter((f) => f.outcome !== 'not-in-use')
      .map((f) => [
        nameOf(record.child.id),
        ...deviceRow(record, f, decisions.get(f.deviceId) ?? null, replaced.has(f.deviceId), today),
      ]);
  });
  if (rows.length === 0) return 'No device is in use, so there is nothing to forecast.';
  return textTable(
    [
      'child',
      'age',
      'device',
      'outgrown from',
      'most likely',
      'to',
      'by',
      'room left',
      'outgrown now',
      'wanted',
    ],
    rows,
  );
}

function deviceRow(
  record: ChildRecord,
  f: DeviceForecast,
  decision: DeviceDecision | null,
  replaced: boolean,
  today: IsoDate,
): string[] {
  const age = decimalAgeYears(record.child.birthDate, today).toFixed(1);
  const device = record.devices.find((d) => d.id === f.deviceId) as Device;
  const [driver] = f.drivers;
  const room = driver && f.room.find(({ series }) => sameSeries(series, driver.series));
  const dated = f.outcome === 'forecast' || f.outcome === 'already-outgrown';
  const word = f.outcome === 'forecast' ? '' : outcomeNames[f.outcome];
  return [
    age,
    `${deviceLabel(device)}${device.status === 'ordered' ? ' (being made)' : ''}`,
    ...(word ? [word, dated && f.p50 ? `about ${f.p50}` : '', ''] : datesOf(f)),
    driver && dated ? `${plainSeries(driver.series)} ${percent(driver.share)}` : '',
    room ? roomText(room) : '',
    dated ? percent(f.probabilityOutgrownNow) : '',
    replaced || f.replacementInProgress ? 'the next is being made' : wantedWord(decision, today),
  ];
}

const datesOf = ({ p10, p50, p90 }: DeviceForecast) => [p10 ?? '', p50 ?? 'later', p90 ?? 'later'];
const roomText = (room: DeviceForecast['room'][number]): string =>
  `${room.roomMm.toFixed(0)} mm (${room.roomLowMm.toFixed(0)} to ${room.roomHighMm.toFixed(0)})`;

/** What is wanted and by when; the day to cast by where nothing is wanted yet. */
function wantedWord(decision: DeviceDecision | null, today: IsoDate): string {
  if (decision === null) return '';
  const { action, castBy, dueBy } = decision;
  if (action === 'none') return castBy ?? 'later';
  if (dueBy === null) return actionNames[action];
  return `${actionNames[action]}${dueBy < today ? ', late since' : ' by'} ${dueBy}`;
}

/** Whole millimetres, without a minus before 0. */
const mm = (value: number): string => String(Math.round(value) + 0);
const sameSeries = (a: { measure: string; side: string }, b: { measure: string; side: string }): boolean =>
  a.measure === b.measure && a.side === b.side;
const percent = (p: number): string => (p > 0 && p < 0.005 ? '<1\u00a0%' : `${Math.round(100 * p)}\u00a0%`);

/** In full: reason, room by dimension, cautions and likely slips of every child; in short: what needs doing now. */
export function forecastDetails(assessed: Assessed, full: boolean): string {
  const { records, assessments } = assessed;
  const nameOf = childWords(records.map(({ child }) => child));
  const blocks = records.map((record) => {
    const { forecasts = [], flags = [], suggestions = [] } = assessments.get(record.child.id) ?? {};
    const wanted = flags.filter(
      ({ id, severity }) => id !== FOR_EVERYONE && (full || severity === 'act-now'),
    );
    const lines = [
      ...(full ? forecasts.flatMap((f) => deviceLines(record, f, assessed)) : []),
      ...wanted.map(flagText),
      ...suggestions.map((s) => suggestionText(s, record)),
    ];
    return lines.length === 0 ? '' : `\n${nameOf(record.child.id)}\n${lines.join('\n')}`;
  });
  const said = blocks.filter((block) => block !== '');
  const heading =
    full || said.length === 0 ? '' : '\nTo act on and to check; --child shows all of one child.';
  const skin = [...assessments.values()].flatMap(({ flags }) => flags).find(({ id }) => id === FOR_EVERYONE);
  return [heading, ...said, skin ? `\n${flagText({ ...skin, seen: '' })}` : '']
    .filter((t) => t !== '')
    .join('\n');
}

/** The caution about skin stands once under the list, not with every child. */
const FOR_EVERYONE = 'standing-skin';

function deviceLines(
  record: ChildRecord,
  f: DeviceForecast,
  { decisions, turnaroundOf }: Assessed,
): string[] {
  if (f.outcome === 'not-in-use') return [];
  const device = record.devices.find((d) => d.id === f.deviceId) as Device;
  const lines = [wrap(`${deviceLabel(device)}, cast ${device.castDate}: ${f.explanation}`, WIDTH, '  ')];
  const rooms = f.room.map(
    (r) =>
      `${plainSeries(r.series)} ${mm(r.roomMm)} of ${mm(r.allowanceMm)}\u00a0mm (80\u00a0% sure: ${mm(r.roomLowMm)} to ${mm(r.roomHighMm)})`,
  );
  if (rooms.length > 0) lines.push(wrap(`Room left: ${rooms.join('; ')}.`, WIDTH, '    '));
  const decision = decisions.get(f.deviceId);
  if (decision) lines.push(wrap(decisionText(decision, turnaroundOf(f.family), f.today), WIDTH, '    '));
  for (const a of f.adjustments ?? []) {
    const ahead = a.p50 ? `will probably be due about ${a.p50}` : 'is not in sight';
    const when = a.dueNow ? 'is due now' : ahead;
    lines.push(
      `    ${capital(adjusting[a.kind])} for ${plainSeries(a.series)} ${when}; ${mm(a.extensionLeftMm)} mm left.`,
    );
  }
  return lines;
}

function decisionText(d: DeviceDecision, turnaround: TurnaroundEstimate, today: IsoDate): string {
  const { p50Days, p80Days, basis } = turnaround;
  const made = `${p50Days} to ${p80Days} days from cast to fitting, ${basis === 'default' ? 'as usual' : 'as in this clinic'}`;
  const castBy = castByOf(d);
  const none = isBeingMade(d.reason.code) ? '' : ` No day to cast by inside the horizon (${made}).`;
  const dates = castBy
    ? ` ${castBy < today ? 'Was to be cast by' : 'Cast by'} ${plainDate(castBy)} to keep the chance of being beyond use before the next is fitted within ${percent(d.acceptedChance)} (${made}).`
    : none;
  return `${capital(actionNames[d.action])}: ${clinicianWhy({ ...d, devices: [d] })}${dates}`;
}

function flagText(flag: Flag): string {
  const mark = { 'act-now': 'ACT NOW', check: 'Check', note: 'Note' }[flag.severity];
  return wrap(
    `${mark}: ${flag.title}. ${flag.seen ? `${flag.seen} ` : ''}${flag.caution} Ask: ${flag.askWhom}.`,
    WIDTH,
    '  ',
  );
}

function suggestionText(s: DataSuggestion, record: ChildRecord): string {
  const rows = record.measurements.filter((m) => s.measurementIds.includes(m.id));
  const what = rows.map((m) => `${plainSeries(m)} ${m.value} on ${m.date}`).join(', ');
  return wrap(`Likely slip: ${s.seen} ${what ? `(${what}) ` : ''}${capital(s.action)}`, WIDTH, '  ');
}
