import { stringify } from 'csv-stringify/sync';
import { deviceLabels } from '../../charts/device-label.js';
import type { RecallEntry } from '../../recall/contract.js';
import { alertNames } from '../../words/action-names.js';
import { safeCell } from './row-reader.js';

export interface RecallChild {
  readonly id: string;
  readonly name: string;
  readonly contact: string;
  readonly language: string;
}

/** A visit as a row for a scheduler's spreadsheet; fields of the interface keep their names. With names, so kept like any health record. */
export function recallColumns(entry: RecallEntry, child: RecallChild): Record<string, string> {
  const of = <K extends 'checkFigure' | 'adjust' | 'part'>(key: K) =>
    entry.devices.find((d) => d[key] !== null)?.[key] ?? null;
  const [check, adjust, part] = [of('checkFigure'), of('adjust'), of('part')];
  return {
    childId: child.id,
    name: child.name,
    alerts: entry.alerts.map((a) => alertNames[a]).join(', '),
    contact: child.contact,
    language: child.language,
    action: entry.action,
    dueBy: entry.dueBy ?? '',
    late: entry.late ? 'yes' : 'no',
    reason: entry.reason.text ?? '',
    reasonCode: entry.reason.code,
    devices: deviceLabels(entry.devices),
    castBy: entry.castBy ?? '',
    tooLateSince: entry.tooLateSince ?? '',
    beyondUseSince: entry.beyondUseSince ?? '',
    daysBeyondUse: String(entry.daysBeyondUse),
    checkFigure: check
      ? `${check.measure} ${check.side} at most ${check.castIfRoomAtMostMm} mm, else not before ${check.elseNotBefore}`
      : '',
    adjust: adjust ? adjustText(adjust) : '',
    part: part ?? '',
    harmPerWeek: entry.harmPerWeek.toFixed(2),
    reviewBy: entry.reviewBy,
    lastSeen: entry.lastSeen ?? '',
    siblings: entry.siblingGroup ?? '',
    plannedWeek: entry.plannedWeek ?? '',
    clinician: entry.plannedClinician ?? '',
    weekReason: entry.weekReason ?? '',
  };
}

function adjustText(step: NonNullable<RecallEntry['devices'][number]['adjust']>): string {
  const holes = step.steps === null ? '' : ` (${step.steps} holes)`;
  return `${step.what} ${step.measure} ${step.side} ${step.mm} mm${holes} by ${step.by}`;
}

/** Such rows as a spreadsheet opens them: no cell runs as a formula. */
export const recallTable = (rows: readonly Readonly<Record<string, string>>[]): string =>
  stringify([...rows], {
    header: true,
    bom: true,
    record_delimiter: 'windows',
    cast: { string: safeCell },
  });
