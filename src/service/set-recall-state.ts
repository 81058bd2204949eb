import { DoorpostError } from '../errors.js';
import { placesOn } from '../recall/level/next-places.js';
import { addDaysIso, type IsoDate } from '../records/dates.js';
import type { Actor, RecallRow, Store } from '../store/contract.js';
import { clinicWeekOf } from './clinic-week-of.js';

/** Nobody is booked further ahead than a plan reaches. */
const BOOKED_AHEAD_DAYS = 183;

type Change = Parameters<Store['recall']['setState']>[1];

/** Says how the work with a family stands; a family that moved away takes the child off every list at once. */
export async function setRecallState(
  tx: Store,
  entryId: string,
  change: Change,
  expected: number | null,
  today: IsoDate,
  actor: Actor,
): Promise<RecallRow> {
  if (change.state === 'booked' && change.appointment) await checkBooked(tx, change.appointment, today);
  const row = await tx.recall.setState(entryId, change, expected, actor);
  if (change.state === 'moved-away')
    await tx.children.change(row.childId, { status: 'moved-away' }, today, null, actor);
  return row;
}

/** Takes the last word back; a child that it took off the lists is put on them again. */
export async function undoRecallState(
  tx: Store,
  entryId: string,
  today: IsoDate,
  actor: Actor,
): Promise<RecallRow> {
  const before = await tx.recall.entry(entryId, actor);
  const row = await tx.recall.undo(entryId, actor);
  if (before.state !== 'moved-away' || row.state === 'moved-away') return row;
  const { value: child } = await tx.children.get(row.childId, actor);
  if (child.status === 'moved-away')
    await tx.children.change(row.childId, { status: 'active' }, today, null, actor);
  return row;
}

/** The last day that can be booked. */
export const bookedUntil = (today: IsoDate): IsoDate => addDaysIso(today, BOOKED_AHEAD_DAYS);

/** A day on which somebody can be seen, from today on and within half a year. */
async function checkBooked(tx: Store, day: IsoDate, today: IsoDate): Promise<void> {
  const refuse = (message: string, accepted: string): never => {
    throw new DoorpostError('invalid-value', message, { field: 'appointment', given: day, accepted });
  };
  const latest = bookedUntil(today);
  if (day < today) refuse(`${day} is past: nobody can be booked for it`, `${today} or later`);
  if (day > latest) refuse(`${day} is more than half a year ahead`, `${today} to ${latest}`);
  const { value: settings } = await tx.settings.get();
  if (placesOn(clinicWeekOf(settings), day) === 0)
    refuse(`The clinic sees nobody on ${day}`, 'a day on which the clinic is open and somebody casts');
}
