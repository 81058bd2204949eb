/** Lists that were made, and the work with families. */

import { z } from 'zod';
import { type RecallEntry, type WorkState, workStates } from '../../recall/contract.js';
import type { IsoDate } from '../../records/dates.js';
import { isoDateText } from '../../records/records.js';

export const recallRun = z.object({
  id: z.string(),
  today: isoDateText,
  month: isoDateText.describe('first of the month the list is for'),
  entries: z.number().describe('of the list due'),
  overdue: z.number(),
  modelVersion: z.string(),
  seed: z.number(),
  createdAt: z.string(),
  /** What is said of the whole list: until when, how many of each action, how its weeks were levelled. */
  summary: z.record(z.string(), z.unknown()),
});
export type RecallRun = Readonly<z.infer<typeof recallRun>>;

/** An entry without what only its own line shows. */
export type BriefEntry = Omit<RecallEntry, 'devices' | 'otherDevices' | 'reason' | 'weekReason'>;

/** Where a child of a list stands, for counts, weeks and order; names come with the rows that are shown. */
export interface RecallBrief {
  readonly id: string;
  readonly childId: string;
  /** Who sees this child, as its record names them; empty for anybody. */
  readonly clinician: string;
  /** Which of the recall room's lists it stands in; everybody who must be rung is in the first. */
  readonly list: RecallListName;
  readonly entry: BriefEntry;
  readonly state: WorkState;
  /** The day it is booked for, where one was said. */
  readonly appointment: IsoDate | null;
}

export interface RecallRow extends RecallBrief {
  readonly runId: string;
  readonly childName: string;
  readonly contact: string;
  readonly language: string;
  readonly transportDays: readonly number[];
  /** As the recall room made it, planned week and its reason included where the list was levelled. */
  readonly entry: RecallEntry;
  readonly stateNote: string;
  readonly stateBy: string;
  readonly stateAt: string | null;
  /** Is there a state change that can be undone? */
  readonly canUndo: boolean;
  readonly version: number;
}

/** How the work with a family stands, as a person says it. */
export const callState = z.object({
  state: z.enum(workStates).describe('declined: not in the week offered; the next list gives another'),
  note: z.string().max(400).default(''),
  appointment: isoDateText
    .nullable()
    .optional()
    .describe(
      'the day booked; left out it stays as it was, and a booking without a day is for the planned week',
    ),
});

/** 'due': who is to be rung; 'open': worth casting already, for free slots. */
export const recallListNames = ['due', 'open'] as const;

export type RecallListName = (typeof recallListNames)[number];

export interface RecallFilter {
  readonly list?: RecallListName;
  /** Only who is called: without the many that could fill a place. */
  readonly due?: boolean;
  readonly state?: WorkState;
  readonly action?: RecallEntry['action'];
  readonly overdue?: boolean;
  readonly childId?: string;
  /** Only these entries. */
  readonly ids?: readonly string[];
}

export type NewRecallRun = Pick<RecallRun, 'today' | 'month' | 'summary' | 'modelVersion' | 'seed'> & {
  readonly inputsHash: string;
  readonly modelName: string;
};

/** A list without what must be counted. */
export type RunHead = Omit<RecallRun, 'entries' | 'overdue'>;
