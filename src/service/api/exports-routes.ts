import { z } from 'zod';
import { tableNames } from '../../exchange/csv/columns.js';
import { csvTables } from '../../exchange/csv/write-caseload.js';
import { toFhirBundle, toFhirResources } from '../../exchange/fhir/to-fhir.js';
import { type Caseload, childrenIn, ungroup } from '../../records/caseload.js';
import type { Actor } from '../../store/contract.js';
import { calendarFeedPath, ownerOfFeed } from '../calendar-feed.js';
import { calendarOf } from '../calendar-of.js';
import type { ServiceDeps } from '../dependencies.js';
import { pseudonymisedExport } from '../pseudonymised-export.js';
import { type Api, administration, planning, recordKeeping, routesOf, sentAs } from './api.js';
import { file, noBody } from './schemas/common.js';

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: a list of routes, each short
export function exportsRoutes(api: Api, deps: ServiceDeps): void {
  const { store, clock } = deps;
  const { act, get } = routesOf(api, deps, ['Exports']);
  const exported = (actor: Actor, resource: string, caseload: Caseload) =>
    store.audit.record(actor, 'export', resource, { childIds: childrenIn(caseload) });

  get(
    '/children/:id/export',
    recordKeeping,
    'What is held about one child, as far as your role sees it, for the family or another clinic',
    { querystring: z.object({ format: z.enum(['json', 'fhir']).default('json') }), 200: file },
    async ({ id, query, actor }) => {
      // What the role sees on the child's page and no more.
      const record = await store.children.record(id, actor);
      await store.audit.record(actor, 'export', 'child-record', { childId: id });
      if (query.format === 'fhir')
        return sentAs(
          JSON.stringify(toFhirBundle(toFhirResources(ungroup([record])))),
          'application/fhir+json',
          'record.json',
        );
      const clinical = actor.role === 'clinician';
      const corrections = clinical ? await store.measurements.corrected(id, actor) : null;
      const accesses = (await store.audit.list({ childId: id }, { limit: 500 })).items;
      const assessment = clinical ? await store.forecasts.assessment(id) : null;
      const held = JSON.stringify({ record, corrections, assessment, accesses });
      return sentAs(held, 'application/json', 'record.json');
    },
  );
  get(
    '/exports/tables/:table',
    administration,
    'One table of the whole caseload as CSV, diagnoses too; the same file can be imported again',
    { params: z.object({ table: z.enum(tableNames) }), 200: file },
    async ({ params, actor }) => {
      const name = `${params.table}.csv` as const;
      const caseload = await store.caseload.all();
      await exported(actor, name, caseload);
      return sentAs(csvTables(caseload)[name] ?? '', 'text/csv; charset=utf-8', name);
    },
  );
  get(
    '/exports/fhir',
    administration,
    'The whole caseload as FHIR R4, diagnoses too, in one Bundle',
    { 200: file },
    async ({ actor }) => {
      const caseload = await store.caseload.all();
      await exported(actor, 'fhir', caseload);
      return sentAs(JSON.stringify(toFhirBundle(toFhirResources(caseload))), 'application/fhir+json');
    },
  );
  get(
    '/exports/pseudonymised',
    administration,
    'Readings and devices for research: keyed ids, age in months, shifted dates, small groups merged',
    { 200: file },
    async ({ actor }) => {
      const records = await store.caseload.records(await store.caseload.ids('any'));
      await exported(actor, 'pseudonymised', ungroup(records));
      const body = pseudonymisedExport(records, await store.secret('pseudonyms'));
      return sentAs(JSON.stringify(body), 'application/json');
    },
  );

  act(
    'POST /calendar-feed',
    planning,
    'Your own address of the recall plan as a calendar feed; a changed account ends it',
    { body: noBody, 201: z.object({ path: z.string() }) },
    async ({ actor }) => ({ path: await calendarFeedPath(store, actor.userId) }),
  );
  get(
    '/calendar-feed/:token',
    { access: 'public' },
    'The recall plan as iCalendar: no name, diagnosis or device in it',
    { params: z.object({ token: z.string().max(200) }), 200: file },
    async ({ request, params }) => {
      const user = await ownerOfFeed(store, params.token);
      const [run] = await store.recall.inUse();
      const actor = { userId: user.id, name: user.name, role: user.role, requestId: request.id };
      const rows = run ? await store.recall.entries(run.id, {}, actor) : [];
      await store.audit.record(actor, 'export', 'calendar-feed', {
        childIds: rows.map((row) => row.childId),
      });
      return sentAs(await calendarOf(rows, { store, clock }), 'text/calendar; charset=utf-8');
    },
  );
}
