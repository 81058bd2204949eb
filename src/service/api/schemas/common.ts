import { z } from 'zod';
import { isoDateText, recordId } from '../../../records/records.js';

export { LONGEST_REASON, reason } from '../../../records/records.js';

export const id = recordId;
export const idParams = z.object({ id });

export const pageQuery = z.object({
  limit: z.coerce.number().int().min(1).max(500).default(50),
  cursor: z.string().max(600).optional().describe('nextCursor of the page before'),
});

/** The document names the fields that matter; whatever else the contract's type carries is sent along. */
export const shapeOf = <T>(shape: z.ZodRawShape, description?: string): z.ZodType<T> =>
  (description
    ? z.looseObject(shape).describe(description)
    : z.looseObject(shape)) as unknown as z.ZodType<T>;

/** A list that is only answered, never taken. */
export const listOf = <T extends z.ZodType>(item: T) => z.array(item).readonly();

export const pageOf = <T extends z.ZodType>(item: T) =>
  z.object({ items: listOf(item), nextCursor: z.string().nullable() });

export const itemsOf = <T extends z.ZodType>(item: T) => z.object({ items: listOf(item) });

/** RFC 9457, as problem.ts sends it. */
export const problem = z
  .looseObject({
    type: z.string(),
    title: z.string(),
    status: z.number().int(),
    detail: z.string(),
    code: z.string(),
    requestId: z.string(),
  })
  .describe('application/problem+json; `code` is stable');

/** Said in the document for every route; checked where it is sent. */
export const failures = { '4xx': problem, '5xx': problem } as const;

/** A request that says everything by its address. */
export const noBody = z.object({}).nullish();
export const nothing = z.null().describe('No content');
export const date = isoDateText;

export const jobStarted = z.object({ jobRunId: z.string() }).describe('Progress: GET /api/jobs/{jobRunId}');

export const file = z.string().describe('The file itself; its kind is in Content-Type');
