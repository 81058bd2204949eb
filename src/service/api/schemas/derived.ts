import { z } from 'zod';
import type { DataSuggestion, DeviceForecast, Flag } from '../../../forecast/contract.js';
import { actionIds, reasonCodes } from '../../../recall/contract.js';
import type { IsoDate } from '../../../records/dates.js';
import type { RecallRow } from '../../../store/contract.js';
import { date, listOf, shapeOf } from './common.js';

const maybeDate = date.nullable();
const series = z.object({ measure: z.string(), side: z.string() });

export const forecast = shapeOf<DeviceForecast>(
  {
    deviceId: z.string(),
    childId: z.string(),
    family: z.string(),
    today: date,
    outcome: z.string(),
    explanation: z.string(),
    p10: maybeDate,
    p50: maybeDate,
    p90: maybeDate,
    dates: listOf(date),
    probabilityOutgrown: listOf(z.number()),
    drivers: listOf(z.looseObject({ series, share: z.number() })),
    room: listOf(z.looseObject({ series, roomMm: z.number() })),
    readingWorth: listOf(z.looseObject({ series, nowDays: z.number(), thenDays: z.number() }))
      .optional()
      .describe('Days from P10 to P90 now and, on the average, after one more reading today'),
    probabilityOutgrownNow: z.number(),
    modelName: z.string(),
    modelVersion: z.string(),
    seed: z.number(),
  },
  'An estimate from measurements: never a diagnosis, never a reason to skip a review',
);

export const flag = shapeOf<Flag>({
  id: z.string(),
  severity: z.string(),
  title: z.string(),
  seen: z.string(),
  caution: z.string(),
  askWhom: z.string(),
});

export const suggestion = shapeOf<DataSuggestion>({
  id: z.string(),
  kind: z.string(),
  measurementIds: listOf(z.string()),
  seen: z.string(),
  corrections: listOf(z.looseObject({ measurementId: z.string() })),
  action: z.string(),
});

export const assessment = z.object({
  childId: z.string(),
  today: date,
  forecasts: listOf(forecast),
  flags: listOf(flag),
  suggestions: listOf(suggestion),
  inputsHash: z.string(),
  modelName: z.string(),
  modelVersion: z.string(),
  seed: z.number(),
  computedAt: z.string(),
});

export const recallRow = shapeOf<RecallRow & { ringAgainOn: IsoDate | null }>({
  id: z.string(),
  runId: z.string(),
  childId: z.string(),
  childName: z.string(),
  contact: z.string(),
  language: z.string(),
  list: z.string(),
  entry: z.looseObject({
    action: z.enum(actionIds),
    reason: z.looseObject({
      code: z.enum(reasonCodes),
      numbers: z.record(z.string(), z.union([z.number(), z.string()])),
    }),
    dueBy: maybeDate,
    castBy: maybeDate,
    tooLateSince: maybeDate,
    beyondUseSince: maybeDate,
    daysBeyondUse: z.number(),
    reviewBy: date,
    harmPerWeek: z.number(),
    late: z.boolean(),
    deviceIds: listOf(z.string()),
  }),
  state: z.string(),
  stateNote: z.string(),
  ringAgainOn: maybeDate.describe('two working days of the clinic after a message was left'),
  version: z.number(),
});

export const turnaround = z.object({
  family: z.string(),
  p50Days: z.number(),
  p80Days: z.number(),
  samplesDays: listOf(z.number()),
  basis: z.string(),
  jobsUsed: z.number(),
});
