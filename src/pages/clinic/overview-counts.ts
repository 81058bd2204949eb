import { turnaroundsOf } from '../../clinic/clinic-list.js';
import { heldOf, type Judged, judgedOf } from '../../forecast/device/held-against-verdicts.js';
import type { Device } from '../../records/device.js';
import type { Child } from '../../records/records.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { keptAnswer } from '../../service/kept-answer.js';
import { onceFor } from '../../statistics/once-for.js';
import { waitDays, waitsOf, yearBefore, yearCounts } from './overview-view.js';

/** What the overview counts over the whole clinic, kept while nothing of it changes: one count a service. */
export const overviewCounts = (deps: ServiceDeps) => countsOf(deps, '');
const countsOf = onceFor((deps: ServiceDeps) => {
  const { store, clock } = deps;
  return keptAnswer(
    async () => {
      const [version, limits, { version: settings }] = await Promise.all([
        store.caseload.version(),
        store.fitLimits.version(),
        store.settings.get(),
      ]);
      return [clock.today(), settings, version, limits].join(' ');
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
