import { levelledClinicList } from '../clinic/clinic-list.js';
import { DoorpostError } from '../errors.js';
import type { IsoDate } from '../records/dates.js';
import type { Actor, ClinicCapacitySettings } from '../store/contract.js';
import { clinicWeekOf } from './clinic-week-of.js';
import type { ServiceDeps } from './dependencies.js';
import { wholeClinic } from './whole-clinic.js';

/** Planning takes the web server's own time here, so a larger clinic makes the list instead. */
const MOST_CHILDREN = 500;

export interface MovedVisit {
  readonly childId: string;
  readonly name: string;
  /** Monday of the week planned with the capacity as it is, and with the one asked about; null: no week. */
  readonly from: IsoDate | null;
  readonly to: IsoDate | null;
  /** Said where the visit then comes later than is safe. */
  readonly tooLate: string;
}

/** Whose week would be another with this capacity, by the planning that makes the list. Nothing is saved. */
export async function previewCapacity(
  { store, clock, assessor }: ServiceDeps,
  capacity: ClinicCapacitySettings,
  actor: Actor,
): Promise<MovedVisit[]> {
  const children = (await store.caseload.ids()).length;
  if (children > MOST_CHILDREN)
    throw new DoorpostError(
      'invalid-value',
      `With ${children} children this cannot be shown beforehand. Save it and make a new list: it says who moves`,
      { field: 'preview', accepted: `at most ${MOST_CHILDREN} children` },
    );
  const { question, settings } = await wholeClinic(store, clock, assessor, '');
  const now = await levelledClinicList(question);
  const then = await levelledClinicList({ ...question, clinic: clinicWeekOf({ ...settings, ...capacity }) });
  const weekNow = new Map(now.list.entries.map((e) => [e.childId, e.plannedWeek ?? null]));
  const names = new Map(question.records.map(({ child }) => [child.id, child.name]));
  const moved = then.list.entries.flatMap((e) => {
    const [from, to] = [weekNow.get(e.childId) ?? null, e.plannedWeek ?? null];
    if (from === to) return [];
    return [{ childId: e.childId, name: names.get(e.childId) ?? '', from, to, tooLate: e.tooLate ?? '' }];
  });
  await store.audit.record(actor, 'read', 'capacity-preview', { childIds: moved.map((m) => m.childId) });
  return moved;
}
