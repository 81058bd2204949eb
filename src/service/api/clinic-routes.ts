import { z } from 'zod';
import { turnaroundsOf } from '../../clinic/clinic-list.js';
import { userNamePattern } from '../../records/check/check-account.js';
import type { AuditRow } from '../../store/contract.js';
import { roles } from '../../store/contract.js';
import { actorOf } from '../access.js';
import type { ServiceDeps } from '../dependencies.js';
import { overseers } from '../roles.js';
import { shownLog } from '../shown-log.js';
import { etag, expectedVersion, write } from '../write.js';
import { type Api, administration, clinical, everyday, route } from './api.js';
import { clinicSettings } from './schemas/clinic-settings.js';
import { idParams, itemsOf, nothing, pageOf, pageQuery, shapeOf } from './schemas/common.js';
import { turnaround } from './schemas/derived.js';

const user = z.object({
  id: z.string(),
  name: z.string(),
  displayName: z.string(),
  role: z.enum(roles),
  disabled: z.boolean(),
  hasPassword: z.boolean(),
  passwordByOther: z.boolean().describe('given by an administrator; to be changed before anything else'),
  version: z.number(),
});
const userName = z.string().max(80).regex(userNamePattern).describe('letters, digits and . _ @ -');
const password = z.string().min(12).max(200);

const familyLink = z.object({
  id: z.string(),
  childId: z.string(),
  label: z.string(),
  expiresAt: z.string(),
  withdrawnAt: z.string().nullable(),
  createdBy: z.string(),
  createdAt: z.string(),
  lastUsedAt: z.string().nullable(),
});

const users = { tags: ['Users'] };
const links = { tags: ['Family links'] };

export function clinicRoutes(api: Api, deps: ServiceDeps): void {
  watchingRoutes(api, deps);
  userRoutes(api, deps);
  userChangeRoute(api, deps);
  familyLinkRoutes(api, deps);
  settingsRoutes(api, deps);
}

function watchingRoutes(api: Api, { store, clock, assessor }: ServiceDeps): void {
  api.get(
    '/turnaround',
    route(
      everyday,
      ['Turnaround'],
      'Days from cast to fitting by device family, learned from the clinic’s own jobs',
      { 200: itemsOf(turnaround) },
    ),
    async () => {
      const jobs = await store.workshopJobs.all();
      const turnaroundOf = turnaroundsOf(jobs, clock.today());
      const families = [...(await assessor.current()).context.rules.keys()];
      return {
        items: families.map((family) => {
          const t = turnaroundOf(family);
          return { ...t, samplesDays: [...t.samplesDays] };
        }),
      };
    },
  );

  api.get(
    '/audit',
    route(
      { access: overseers },
      ['Audit'],
      'Who read or wrote what, newest first',
      {
        200: pageOf(
          shapeOf<AuditRow>({
            id: z.string(),
            at: z.string(),
            userName: z.string(),
            role: z.string(),
            action: z.string(),
            resource: z.string(),
            childId: z.string().nullable(),
            childrenShown: z.number(),
          }),
        ),
      },
      {
        querystring: pageQuery.extend({
          childId: z.string().max(80).optional(),
          userId: z.string().max(80).optional(),
          action: z.string().max(40).optional(),
          from: z.iso.datetime({ offset: true }).max(40).optional(),
          to: z.iso.datetime({ offset: true }).max(40).optional(),
        }),
      },
    ),
    async (request) => {
      const { limit, cursor, ...filter } = request.query;
      return shownLog(store, filter, { limit, cursor }, actorOf(request));
    },
  );
}

function userRoutes(api: Api, { store }: ServiceDeps): void {
  api.get('/users', route(administration, users.tags, 'Accounts', { 200: itemsOf(user) }), async () => ({
    items: await store.users.list(),
  }));
  api.post(
    '/users',
    route(
      administration,
      users.tags,
      'Add an account',
      { 201: user },
      {
        body: z.object({
          name: userName,
          displayName: z.string().max(120).optional(),
          role: z.enum(roles),
          password,
        }),
      },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        const added = await tx.users.create(request.body, actor);
        return { status: 201, body: added, headers: etag(added.version) };
      }),
  );
  api.get(
    '/users/:id',
    route(administration, users.tags, 'One account', { 200: user }, { params: idParams }),
    async (request, reply) => {
      const found = await store.users.get(request.params.id);
      return reply.headers(etag(found.version)).send(found);
    },
  );
}

function userChangeRoute(api: Api, { store }: ServiceDeps): void {
  api.patch(
    '/users/:id',
    route(
      administration,
      users.tags,
      'Change role, name or password, or close an account; ends its sessions',
      { 200: user },
      {
        params: idParams,
        body: z.strictObject({
          displayName: z.string().max(120).optional(),
          role: z.enum(roles).optional(),
          disabled: z.boolean().optional(),
          password: password.optional(),
        }),
      },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        const changed = await tx.users.change(
          request.params.id,
          request.body,
          expectedVersion(request),
          actor,
        );
        return { status: 200, body: changed, headers: etag(changed.version) };
      }),
  );
}

function familyLinkRoutes(api: Api, { store, clock, config }: ServiceDeps): void {
  api.get(
    '/children/:id/family-links',
    route(
      clinical,
      links.tags,
      'Links given to this family',
      { 200: itemsOf(familyLink) },
      { params: idParams },
    ),
    async (request) => ({ items: await store.familyLinks.list(request.params.id, actorOf(request)) }),
  );
  api.post(
    '/children/:id/family-links',
    route(
      clinical,
      links.tags,
      'A signed link to this child’s page for the family; the token is shown once',
      { 201: familyLink.extend({ token: z.string(), path: z.string() }) },
      {
        params: idParams,
        body: z.object({
          label: z.string().max(80).default(''),
          days: z.number().int().min(1).max(400).default(90),
        }),
      },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        const { label, days } = request.body;
        const link = await tx.familyLinks.create(request.params.id, label, days, clock.now(), actor);
        const path = `/family/${link.token}`;
        return { status: 201, body: { ...link, path: `${config.publicUrl ?? ''}${path}` } };
      }),
  );
  api.delete(
    '/family-links/:id',
    route(
      clinical,
      links.tags,
      'Withdraw a link: it opens nothing from now on',
      { 204: nothing },
      { params: idParams },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        await tx.familyLinks.withdraw(request.params.id, clock.now(), actor);
        return { status: 204, body: null };
      }),
  );
}

function settingsRoutes(api: Api, { store }: ServiceDeps): void {
  api.get(
    '/settings',
    route(everyday, ['Settings'], 'What the clinic has set', { 200: clinicSettings }),
    async (_request, reply) => {
      const { value, version } = await store.settings.get();
      return reply.headers(etag(version)).send(value);
    },
  );
  api.patch(
    '/settings',
    route(
      administration,
      ['Settings'],
      'Change what is named',
      { 200: clinicSettings },
      { body: clinicSettings.partial().strict() },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        const changed = await tx.settings.change(request.body, expectedVersion(request), actor);
        return { status: 200, body: changed.value, headers: etag(changed.version) };
      }),
  );
}
