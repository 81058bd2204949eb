import type { ChildRecord } from '../../records/caseload.js';
import { addDaysIso, daysBetween, type IsoDate } from '../../records/dates.js';
import type { DeviceEvent } from '../../records/device.js';
import { deviceHistory, isWorn } from '../../records/device-history.js';
import type { SkinCheck } from '../../records/skin-check.js';
import type { FitRules } from '../../rules/fit-rule.js';
import { type Finding, type FindingKind, isOfDevice, severityOf } from './finding.js';
import { type ReadNote, readNote } from './notes/read-note.js';

/** What nobody answered is as urgent as on its day for so long, days (common practice, no source). */
const OPEN_DAYS = 60;

/** What a later look at the skin that finds it well answers. */
const ofTheSkin: readonly FindingKind[] = [
  'skin-open',
  'skin-lasting',
  'skin-infected',
  'skin-mark',
  'skin-callus',
  'swelling',
  'rash',
  'pain',
  'unclear',
];

const severityRank = ['see-now', 'repair', 'look'] as const;

/**
 * What skin checks and free notes say and nothing later has answered, most urgent first. Where the skin cannot warn,
 * every mark is seen at once. What was urgent long ago is still asked about, and what is broken stays broken.
 */
export function findFindings(record: ChildRecord, rules: FitRules, today: IsoDate): Finding[] {
  const read = notesOf(record, rules);
  const castOn = new Map(record.devices.map((d) => [d.id, deviceHistory(d, record.events).castDate]));
  const madeAfter = ({ event }: NoteOf, days: number) =>
    addDaysIso(event.date, -days) <= (castOn.get(event.deviceId) ?? '');
  const found = [
    ...record.skinChecks.flatMap(fromCheck),
    ...read.flatMap((note) => fromNote(note, madeAfter)),
  ];
  return found
    .filter((f) => !isAnswered(f, record, read))
    .flatMap((f) => stillOpen(f, record, today))
    .map((f) => (f.severity === 'look' && cannotWarn(f, record) ? { ...f, severity: 'see-now' as const } : f))
    .sort(
      (a, b) =>
        severityRank.indexOf(a.severity) - severityRank.indexOf(b.severity) || b.date.localeCompare(a.date),
    );
}

/** Long ago and neither looked at since nor taken off with its device: asked about, as no more than that. */
function stillOpen(f: Finding, { devices, events }: ChildRecord, today: IsoDate): Finding[] {
  if (daysBetween(f.date, today) <= OPEN_DAYS) return [f];
  const device = devices.find((d) => d.id === f.deviceId);
  const gone = device && !isWorn(device, events);
  const fine = events.some((e) => e.deviceId === f.deviceId && e.verdict === 'good' && e.date > f.date);
  if (f.severity === 'look' || gone || fine) return [];
  return [f.severity === 'repair' ? f : { ...f, severity: 'look' }];
}

interface NoteOf {
  readonly event: DeviceEvent;
  readonly read: ReadNote;
}

function notesOf({ devices, events }: ChildRecord, rules: FitRules): NoteOf[] {
  const region = new Map(devices.map((d) => [d.id, rules.get(d.family)?.region ?? null]));
  return events
    .filter((e) => e.note !== '')
    .map((event) => ({ event, read: readNote(event.note, region.get(event.deviceId) ?? null, event.date) }));
}

/** A device that was cast after what the note tells of was made for it. */
const fromNote = (note: NoteOf, madeAfter: (note: NoteOf, days: number) => boolean): Finding[] =>
  note.read.findings
    .filter(({ daysBefore }) => daysBefore === undefined || !madeAfter(note, daysBefore))
    .map(({ daysBefore: _, ...f }) => ({
      ...f,
      severity: severityOf[f.kind],
      date: note.event.date,
      source: note.event.kind === 'verdict' ? 'verdict' : 'note',
      deviceId: note.event.deviceId,
    }));

function fromCheck(check: SkinCheck): Finding[] {
  if (check.state === 'none' || check.state === 'fades') return [];
  const kind = check.state === 'open' ? 'skin-open' : 'skin-lasting';
  return [
    {
      kind,
      severity: severityOf[kind],
      where: check.where || null,
      side: check.side,
      minutes: check.minutes,
      date: check.date,
      source: 'skin-check',
      deviceId: check.deviceId,
      words: '',
    },
  ];
}

/** Of the skin: a later look found it well. Of the device: it was repaired, delivered anew or retired since. */
function isAnswered(f: Finding, record: ChildRecord, read: readonly NoteOf[]): boolean {
  const sameDevice = (deviceId: string | null) =>
    deviceId === null || f.deviceId === null || deviceId === f.deviceId;
  if (isOfDevice(f.kind))
    return record.events.some(
      (e) =>
        e.date > f.date && sameDevice(e.deviceId) && ['adjusted', 'delivered', 'retired'].includes(e.kind),
    );
  if (!ofTheSkin.includes(f.kind)) return false;
  return (
    record.skinChecks.some(
      (c) => c.date > f.date && sameDevice(c.deviceId) && (c.state === 'none' || c.state === 'fades'),
    ) || read.some((n) => n.event.date > f.date && sameDevice(n.event.deviceId) && n.read.skinClear)
  );
}

function cannotWarn(f: Finding, { child, skinChecks }: ChildRecord): boolean {
  const numb = (c: SkinCheck) => c.cannotWarn && (c.deviceId === null || c.deviceId === f.deviceId);
  return ofTheSkin.includes(f.kind) && (child.insensateSkin || skinChecks.some(numb));
}
