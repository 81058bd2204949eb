import type { ChildRecord } from '../records/caseload.js';
import type { Store, StoredAssessment } from '../store/contract.js';
import { type Assessor, stillGoodSince } from './assessor.js';
import { clinicWeekOf } from './clinic-week-of.js';
import type { Clock } from './clock.js';
import { recallSettingsOf } from './recall-settings-of.js';

const CHUNK = 100;

/** Every record with its assessment (one that is out of date is made anew), and what the planning of weeks asks. */
export async function wholeClinic(store: Store, clock: Clock, assessor: Assessor, month: string) {
  const assessing = await assessor.current();
  const ids = await store.caseload.ids();
  const records: ChildRecord[] = [];
  const assessments: StoredAssessment[] = [];
  const since = stillGoodSince(assessing);
  for (let part = 0; part * CHUNK < ids.length; part++) {
    const these = ids.slice(part * CHUNK, (part + 1) * CHUNK);
    const [chunk, kept] = await Promise.all([
      store.caseload.records(these),
      store.forecasts.assessments(these),
    ]);
    const assessed = chunk.map((record) => assessing.of(record, kept.get(record.child.id) ?? null, since));
    // What changed since the night is kept together: each by itself would have everybody's writes wait for it.
    const fresh = assessed.flatMap(({ now, isNew }) => (isNew ? [now] : []));
    if (fresh.length > 0) await store.transaction((tx) => tx.forecasts.save(...fresh));
    records.push(...chunk);
    assessments.push(...assessed.map(({ now }) => now));
  }
  const { value: settings } = await store.settings.get();
  const today = clock.today();
  const question = {
    records,
    assessments,
    jobs: await store.workshopJobs.all(),
    today,
    rules: assessing.context.rules,
    month: month === '' ? null : month.slice(0, 7),
    settings: recallSettingsOf(settings),
    clinic: clinicWeekOf(settings),
    earlier: await store.recall.earlierVisits(),
    failed: assessing.context.failed,
  };
  return { question, assessments, settings, assessing };
}
