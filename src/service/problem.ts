import type { FastifyError, FastifyReply, FastifyRequest } from 'fastify';
import { hasZodFastifySchemaValidationErrors } from 'fastify-type-provider-zod';
import { ZodError, type z } from 'zod';
import { DoorpostError, type ErrorCode, type ErrorPlace, errorCatalogue } from '../errors.js';
import { acceptedBy } from '../records/check/accepted-by.js';
import { loggedError } from './log.js';

/** RFC 9457 problem details; `code` is the catalogue's. */
export interface Problem extends ErrorPlace {
  readonly type: string;
  readonly title: string;
  readonly status: number;
  readonly detail: string;
  readonly code: ErrorCode;
  readonly requestId: string;
  readonly errors?: readonly { readonly field: string; readonly message: string }[];
}

/** What a thrown thing means to the one who asked; what is not theirs to know becomes 'unexpected'. */
export function problemOf(error: unknown, request: FastifyRequest): Problem {
  const problem = (
    code: ErrorCode,
    detail: string,
    more: Partial<Problem> = {},
    status: number = errorCatalogue[code].status,
  ): Problem => ({
    type: `urn:doorpost:problem:${code}`,
    title: errorCatalogue[code].title,
    status,
    detail,
    code,
    requestId: request.id,
    ...more,
  });
  if (error instanceof DoorpostError) {
    // A fault of our own files or configuration is nothing the caller can put right.
    if (error.status === 500) return problem('unexpected', UNEXPECTED);
    return problem(error.code, error.message, error.place);
  }
  if (hasZodFastifySchemaValidationErrors(error))
    return problem('invalid-value', 'The request does not fit its schema', {
      ...firstPlace(
        error.validation.map(({ instancePath, keyword, message = '', params }) => ({
          path: instancePath.slice(1).split('/'),
          ...params,
          code: keyword as z.core.$ZodIssue['code'],
          message,
        })),
      ),
      errors: error.validation.map((v) => ({
        field: `${error.validationContext ?? 'request'}${v.instancePath}`,
        message: v.message ?? 'not accepted',
      })),
    });
  if (error instanceof ZodError)
    return problem('invalid-value', 'A value cannot be accepted', {
      ...firstPlace(error.issues),
      errors: error.issues.map((i) => ({ field: i.path.join('.'), message: i.message })),
    });
  const { statusCode, code, message } = error as FastifyError;
  if (typeof code === 'string') {
    const known = ofDatabase(code);
    if (known) return problem(...known);
    if (code.startsWith('FST_CSRF'))
      return problem(
        'not-allowed',
        'This write came without the CSRF token of your session: reload the page',
      );
  }
  if (statusCode === 413) return problem('too-large', message);
  if (statusCode === 429) return problem('too-many-requests', message);
  if (statusCode !== undefined && statusCode >= 400 && statusCode < 500)
    return problem('bad-request', message, {}, statusCode);
  return problem('unexpected', UNEXPECTED);
}

/** The first thing to put right, as every other refusal names it. */
function firstPlace([first]: readonly (Parameters<typeof acceptedBy>[0] & {
  path: PropertyKey[];
})[]): ErrorPlace {
  return first ? { field: first.path.join('.'), accepted: acceptedBy(first) } : {};
}

const UNEXPECTED =
  'The request was not carried out. Try again; if it stays, tell the administrator the requestId';

/** PostgreSQL's SQLSTATE classes; a lost connection is named by the store. */
function ofDatabase(code: string): [ErrorCode, string] | null {
  if (/^22\w{3}$/.test(code))
    return ['invalid-value', 'A value cannot be stored (for example a NUL character)'];
  if (code === '23503') return ['invalid-value', 'This refers to a record that is not there'];
  if (code === '23505') return ['already-there', 'There is a record with this id already'];
  if (/^23\w{3}$/.test(code)) return ['invalid-value', 'A value breaks a rule of the store'];
  if (code === '40001' || code === '40P01')
    return ['changed-meanwhile', 'Others were writing the same record: repeat the request'];
  return null;
}

export function sendProblem(error: unknown, request: FastifyRequest, reply: FastifyReply): FastifyReply {
  const problem = problemOf(error, request);
  if (problem.status >= 500) {
    // What is said of the database itself names no record, nor does what its driver said.
    const away = problem.status === 503 && error instanceof DoorpostError;
    const why = away ? { why: error.message, cause: (error.cause as Error | undefined)?.message } : {};
    request.log.error({ ...loggedError(error as Error), ...why }, 'request failed');
  }
  if (problem.code === 'not-signed-in') reply.header('www-authenticate', 'Bearer realm="doorpost"');
  return reply
    .code(problem.status)
    .type('application/problem+json')
    .serializer((body: unknown) => JSON.stringify(body))
    .send(problem);
}
