import { turnaroundsOf } from '../../clinic/clinic-list.js';
import { heldOf, type Judged, judgedOf } from '../../forecast/device/held-against-verdicts.js';
import type { Caseload } from '../../records/caseload.js';
import { addDaysIso, daysBetween, type IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import type { Child } from '../../records/records.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { keptAnswer } from '../../service/kept-answer.js';
import { groupBy } from '../../statistics/group-by.js';
import { median } from '../../statistics/median.js';
import { onceFor } from '../../statistics/once-for.js';
import type { VisitDays } from '../../store/contract.js';

/** What the overview counts over the whole clinic, kept while nothing of it changes: one count a service. */
export const overviewCounts = (deps: ServiceDeps) => countsOf(deps, '');
const countsOf = onceFor((deps: ServiceDeps) => {
  const { store, clock } = deps;
  return keptAnswer(
    async () => {
      const [version, limits] = await Promise.all([store.caseload.version(), store.fitLimits.version()]);
      return [clock.today(), version, limits].join(' ');
    },
    (afterOthers) => counted(deps, afterOthers),
  );
});

export type OverviewCounts = Awaited<ReturnType<typeof counted>>;

/** A part of the children after another, so that other pages are answered meanwhile. */
async function counted({ store, clock, assessor }: ServiceDeps, afterOthers: () => Promise<void>) {
  const today = clock.today();
  const children: Child[] = [];
  const devices: Device[] = [];
  const judged: Judged[] = [];
  const waits: number[] = [];
  for await (const part of store.caseload.devicesByPart()) {
    const past = await store.forecasts.history(part.devices.map((d) => d.id));
    children.push(...part.children);
    devices.push(...part.devices);
    judged.push(...judgedOf(part.devices, part.events, past, today));
    waits.push(...waitDays(part));
    await afterOthers();
  }
  const [days, jobs, { context }] = await Promise.all([
    store.caseload.visitDays(yearBefore(today), today),
    store.workshopJobs.all(),
    assessor.current(),
  ]);
  const inUse = devices.filter((d) => d.status !== 'retired').map((d) => d.family);
  const turnaround = [...new Set(inUse)].toSorted().map(turnaroundsOf(jobs, today, context.rules));
  await afterOthers();
  return {
    held: heldOf(judged, today),
    waits: waitsOf(waits),
    year: yearCounts({ children, devices }, days, today),
    turnaround,
  };
}

/** Days from each verdict to the next device of that side. */
export function waitDays(caseload: Pick<Caseload, 'devices' | 'events'>): number[] {
  const eventsOf = groupBy(caseload.events, (e) => e.deviceId);
  const devicesOf = groupBy(caseload.devices, (d) => d.childId);
  return caseload.devices.flatMap((device) => {
    const judged = (eventsOf.get(device.id) ?? [])
      .flatMap((e) => (e.verdict === 'outgrown' ? [e.date] : []))
      .toSorted()[0];
    const next = (devicesOf.get(device.childId) ?? [])
      .filter((d) => d.family === device.family && d.side === device.side && d.castDate > device.castDate)
      .flatMap((d) => d.fittedDate ?? [])
      .toSorted()[0];
    return judged && next ? [Math.max(0, daysBetween(judged, next))] : [];
  });
}

/** How long children went on with a device judged outgrown: the middle of so many. */
export const waitsOf = (days: readonly number[]) => ({ n: days.length, middleDays: median(days) });

export const yearBefore = (today: IsoDate): IsoDate => addDaysIso(today, -365);

export function yearCounts(
  { children, devices }: Pick<Caseload, 'children' | 'devices'>,
  { visits, last }: VisitDays,
  today: IsoDate,
) {
  const since = yearBefore(today);
  const placeOf = (d: Device) => `${d.childId} ${d.family} ${d.side}`;
  const ofPlace = groupBy(devices, placeOf);
  const isFirst = (d: Device) =>
    d.replaces === null && (ofPlace.get(placeOf(d)) ?? []).every((other) => other.castDate >= d.castDate);
  const cast = devices.filter((d) => d.castDate > since && d.castDate <= today);
  return {
    children: children.filter((c) => c.status === 'active').length,
    visits,
    casts: cast.length,
    // The first in their place: newcomers and new needs, which no forecast foresees.
    firstCasts: cast.filter(isFirst).length,
    neverMeasured: last.filter((l) => l.date === null).length,
    notSeenForAYear: last.filter((l) => l.date !== null && l.date <= since).length,
  };
}
