import { createHash } from 'node:crypto';
import { levelledClinicList } from '../../clinic/clinic-list.js';
import type { DeviceForecast } from '../../forecast/contract.js';
import {
  actionIds,
  type DeviceDecision,
  type RecallEntry,
  type RecallLevelling,
  type RecallList,
} from '../../recall/contract.js';
import { counted } from '../../records/counted.js';
import { addDaysIso } from '../../records/dates.js';
import type { JobData, Store, StoredAssessment } from '../../store/contract.js';
import { withSentences } from '../../words/reason-sentence.js';
import type { Assessor } from '../assessor.js';
import type { Clock } from '../clock.js';
import { wholeClinic } from '../whole-clinic.js';

/** A cast so soon after the list's last day may fill a place that stays free. */
const FILL_DAYS = 56;

/**
 * The list from the assessments that the parts before it brought up to date (a record changed meanwhile is
 * assessed here). The list is kept in one transaction together with the fact that the run is done.
 */
export async function recallList(
  store: Store,
  clock: Clock,
  assessor: Assessor,
  { runId, month }: JobData['recall-list'],
): Promise<void> {
  if ((await store.jobRuns.get(runId)).status === 'done') return;
  const { question, assessments, settings, assessing } = await wholeClinic(store, clock, assessor, month);
  await store.jobRuns.setMessage(runId, 'planning the weeks');
  const answer = await levelledClinicList(question);
  const { today } = question;
  const list = { ...withSentences(answer.list, assessing.context.rules), levelling: answer.list.levelling };
  const using = assessing.context;
  await store.transaction(async (tx) => {
    const { first } = await tx.jobRuns.partDone(runId, LAST_PART, 0);
    if (!first) return;
    await tx.recall.save(
      {
        today,
        month: `${(list.month ?? today).slice(0, 7)}-01`,
        summary: { ...summaryOf(list), levelling: withoutChildren(list.levelling) },
        modelName: using.model.name,
        modelVersion: using.model.version,
        seed: using.seed,
        inputsHash: createHash('sha256')
          .update(assessments.map((a) => a.inputsHash).join('\n') + JSON.stringify(settings))
          .digest('hex'),
      },
      [
        ...list.entries.map((entry) => ({ list: 'due' as const, entry: entryWithoutCurves(entry) })),
        // The next to fall due, for places that stay free.
        ...list.notDue
          .filter((e) => e.castBy !== null && e.castBy <= addDaysIso(list.until, FILL_DAYS))
          .map((entry) => ({ list: 'open' as const, entry: entryWithoutCurves(entry) })),
      ],
    );
    await tx.jobRuns.end(runId, 'done', leftOutText(assessments, list.notPlanned), clock.now());
  });
}

/** Said where the run is shown: numbers, never who. The children stand on the list, to be looked at. */
export function leftOutText(
  assessments: readonly Pick<StoredAssessment, 'forecasts'>[],
  notPlanned: readonly string[],
): string {
  const notForecast = assessments.filter((a) => a.forecasts.some((f) => f.outcome === 'not-computed')).length;
  return [
    sentence(notForecast, 'forecast: a value in the record cannot be'),
    sentence(notPlanned.length, 'planned: the record does not fit together. Look at fit and skin'),
  ]
    .filter((words) => words !== '')
    .join('. ');
}

const sentence = (children: number, why: string): string =>
  children === 0 ? '' : `${counted(children, 'child', 'children')} could not be ${why}. The others are done`;

/** Booked once when the list is kept, beside the parts counted from 0. */
const LAST_PART = -1;

/** Without the curves, which stay with the assessment: a list of thousands must open at once. */
const entryWithoutCurves = (entry: RecallEntry): RecallEntry => ({
  ...entry,
  devices: entry.devices.map(deviceWithoutCurve),
  otherDevices: entry.otherDevices.map(deviceWithoutCurve),
});
const deviceWithoutCurve = (d: DeviceDecision): DeviceDecision => ({
  ...d,
  forecast: d.forecast && withoutCurve(d.forecast),
});
const withoutCurve = (f: DeviceForecast): DeviceForecast => ({ ...f, dates: [], probabilityOutgrown: [] });

/** The summary outlives a child that is erased, so it names none: who is late stands with the entries. */
const withoutChildren = ({ harmed, ...levelling }: RecallLevelling) => ({
  ...levelling,
  harmed: harmed.length,
});

const summaryOf = (list: RecallList): Record<string, unknown> => ({
  until: list.until,
  due: list.entries.length,
  late: list.entries.filter((e) => e.late).length,
  byAction: Object.fromEntries(
    actionIds.map((action) => [action, list.entries.filter((e) => e.action === action).length]),
  ),
  notDue: list.notDue.length,
  inProgress: list.inProgress,
});
