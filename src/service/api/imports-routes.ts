import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { DoorpostError } from '../../errors.js';
import { sheetAnswer } from '../../store/contract.js';
import { actorOf } from '../access.js';
import type { ServiceDeps } from '../dependencies.js';
import { answerImport, type ImportOptions, planImport } from '../plan-import.js';
import type { UploadedFiles } from '../uploads/uploaded-files.js';
import { type Api, recordKeeping, routesOf, writing } from './api.js';
import { failures, jobStarted, listOf, noBody } from './schemas/common.js';

const REFUSED_SHOWN = 500;
/** Text as JSON has to be held whole; larger files come as multipart. */
const JSON_BYTES = 8 * 1024 * 1024;

const textFiles = z.object({
  files: z
    .array(z.object({ name: z.string().min(1).max(200), text: z.string() }))
    .min(1)
    .max(12),
  dateOrder: z.enum(['refuse', 'dmy', 'mdy']).default('refuse').describe('how 03/04/2024 is read'),
  lengthUnit: z
    .enum(['mm', 'cm', 'inch'])
    .nullable()
    .default(null)
    .describe('where no cell or heading says one'),
});

const plan = z.object({
  tables: listOf(
    z.object({ table: z.string(), added: z.number(), changed: z.number(), unchanged: z.number() }),
  ),
  refused: listOf(z.string()).describe('row, column, what was given, why, what is accepted'),
  refusedCount: z.number(),
  doubtful: listOf(z.string()).describe('readings written with a doubt; they count for less'),
  doubtfulCount: z.number(),
  notices: listOf(z.string()),
  questions: listOf(
    z.object({
      id: z.string(),
      file: z.string(),
      sheet: z.string().describe('the sheet by its headings; empty for a word that holds in every sheet'),
      asks: z.string(),
      examples: listOf(z.string()),
      cells: z.number(),
      suggested: z.string().nullable(),
      choices: listOf(z.object({ answer: z.string(), label: z.string() })),
    }),
  ).describe('what only the clinic can say; what waits for an answer is not taken'),
  columns: listOf(
    z.object({
      file: z.string(),
      sheet: z.string(),
      question: z.string(),
      heading: z.string(),
      meaning: z.string(),
      certainty: z.string(),
      examples: listOf(z.string()),
    }),
  ).describe('what each column was taken for'),
});
const oneAnswer = z.object({
  sheet: z.string().max(40).default(''),
  question: z.string().min(1).max(300),
  answer: z.string().min(1).max(200),
});
const answers = z.object({ answers: z.array(oneAnswer).min(1).max(500) });

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: a list of routes, each short
export function importsRoutes(api: Api, deps: ServiceDeps): void {
  const { store, clock, jobs } = deps;
  const { act, get, write } = routesOf(api, deps, ['Imports']);
  const reading = { store, uploads: api.uploads, refusedShown: REFUSED_SHOWN };
  api.post(
    '/imports',
    {
      config: { ...writing('files'), upload: true },
      bodyLimit: JSON_BYTES,
      schema: {
        tags: ['Imports'],
        summary:
          'Dry run: what the files would add, change and what is refused and why; nothing is taken in yet',
        description:
          'CSV or FHIR R4 text as JSON, or multipart/form-data with the files (also .xlsx) in the field `files` ' +
          'and `dateOrder`, `lengthUnit` as fields.',
        consumes: ['application/json', 'multipart/form-data'],
        response: { 201: z.object({ id: z.string(), plan }), ...failures },
      },
    },
    async (request, reply) => {
      const { files, options } = filesOf(request, clock.today());
      const planned = await planImport(reading, files, options, actorOf(request));
      return reply.code(201).send(planned);
    },
  );

  get(
    '/imports/:id',
    writing('files'),
    'An import: its dry run and whether it was taken in',
    { 200: z.object({ id: z.string(), status: z.string(), plan: z.unknown() }) },
    async ({ id, actor }) => {
      const { status, plan: shown } = await store.imports.get(id);
      const childIds = await store.imports.childIds(id);
      await store.audit.record(actor, 'read', 'import', { childIds, importId: id });
      return { id, status, plan: shown };
    },
  );
  write(
    'POST /imports/:id/commit',
    writing('files'),
    'Take the import in, whole or not at all (a job)',
    { body: noBody, 202: jobStarted },
    async ({ tx, id, actor }) => ({ jobRunId: await jobs.startImport(id, actor, tx) }),
  );
  act(
    'POST /imports/:id/answers',
    writing('files'),
    "Answers a dry run's questions: kept as the clinic's reading of such sheets, and the files read again",
    { body: answers, 200: z.object({ plan }) },
    async ({ id, body, actor }) => ({ plan: await answerImport(reading, id, body.answers, actor) }),
  );
  write(
    'POST /imports/:id/take-back',
    writing('files'),
    'Takes back what an import added and nothing was built on since; says what stays and why',
    {
      body: noBody,
      200: z.object({
        removed: z.number(),
        stays: listOf(z.object({ why: z.string(), count: z.number() })),
      }),
    },
    ({ tx, id, actor }) => tx.imports.takeBack(id, actor),
  );
  get(
    '/sheet-answers',
    recordKeeping,
    "The clinic's reading of its sheets: every answer it gave",
    { 200: z.object({ answers: listOf(sheetAnswer) }) },
    async () => ({ answers: await store.sheetAnswers.list() }),
  );
  act(
    'DELETE /sheet-answers',
    recordKeeping,
    'Forgets an answer: the next such sheet is asked again',
    { querystring: oneAnswer.omit({ answer: true }), 200: z.object({ removed: z.boolean() }) },
    async ({ query: { sheet, question }, actor }) => ({
      removed: await store.sheetAnswers.remove(sheet, question, actor),
    }),
  );
}

function filesOf(request: FastifyRequest, today: string): { files: UploadedFiles; options: ImportOptions } {
  if (request.upload === null) {
    const { files, dateOrder, lengthUnit } = textFiles.parse(request.body);
    return {
      files: files.map(({ name, text }) => ({ name, bytes: new TextEncoder().encode(text) })),
      options: { today, dateOrder, lengthUnit },
    };
  }
  const { files, fields } = request.upload;
  if (files.length === 0)
    throw new DoorpostError('invalid-file', 'There is no file in the field files', {
      field: 'files',
      accepted: 'CSV, XLSX, FHIR JSON or NDJSON',
    });
  const { dateOrder, lengthUnit } = textFiles
    .omit({ files: true })
    .parse({ dateOrder: fields.dateOrder, lengthUnit: fields.lengthUnit || null });
  return { files, options: { today, dateOrder, lengthUnit } };
}
