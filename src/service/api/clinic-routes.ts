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
import { type Api, administration, clinical, everyday } from './api.js';
import { clinicSettings } from './schemas/clinic-settings.js';
import { failures, idParams, itemsOf, nothing, pageOf, pageQuery, shapeOf } from './schemas/common.js';
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

export function clinicRoutes(api: Api, { store, clock, assessor, config }: ServiceDeps): void {
  api.get(
    '/turnaround',
    {
      config: everyday,
      schema: {
        tags: ['Turnaround'],
        summary: 'Days from cast to fitting by device family, learned from the clinic’s own jobs',
        response: { 200: itemsOf(turnaround), ...failures },
      },
    },
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
    {
      config: { access: overseers },
      schema: {
        tags: ['Audit'],
        summary: 'Who read or wrote what, newest first',
        querystring: pageQuery.extend({
          childId: z.string().max(80).optional(),
          userId: z.string().max(80).optional(),
          action: z.string().max(40).optional(),
          from: z.iso.datetime({ offset: true }).max(40).optional(),
          to: z.iso.datetime({ offset: true }).max(40).optional(),
        }),
        response: {
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
          ...failures,
        },
      },
    },
    async (request) => {
      const { limit, cursor, ...filter } = request.query;
      return shownLog(store, filter, { limit, cursor }, actorOf(request));
    },
  );

  const users = { tags: ['Users'] };
  api.get(
    '/users',
    {
      config: administration,
      schema: { ...users, summary: 'Accounts', response: { 200: itemsOf(user), ...failures } },
    },
    async () => ({ items: await store.users.list() }),
  );
  api.post(
    '/users',
    {
      config: administration,
      schema: {
        ...users,
        summary: 'Add an account',
        body: z.object({
          name: userName,
          displayName: z.string().max(120).optional(),
          role: z.enum(roles),
          password,
        }),
        response: { 201: user, ...failures },
      },
    },
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        const added = await tx.users.create(request.body, actor);
        return { status: 201, body: added, headers: etag(added.version) };
      }),
  );
  api.get(
    '/users/:id',
    {
      config: administration,
      schema: { ...users, summary: 'One account', params: idParams, response: { 200: user, ...failures } },
    },
    async (request, reply) => {
      const found = await store.users.get(request.params.id);
      return reply.headers(etag(found.version)).send(found);
    },
  );
  api.patch(
    '/users/:id',
    {
      config: administration,
      schema: {
        ...users,
        summary: 'Change role, name or password, or close an account; ends its sessions',
        params: idParams,
        body: z.strictObject({
          displayName: z.string().max(120).optional(),
          role: z.enum(roles).optional(),
          disabled: z.boolean().optional(),
          password: password.optional(),
        }),
        response: { 200: user, ...failures },
      },
    },
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

  const links = { tags: ['Family links'] };
  api.get(
    '/children/:id/family-links',
    {
      config: clinical,
      schema: {
        ...links,
        summary: 'Links given to this family',
        params: idParams,
        response: { 200: itemsOf(familyLink), ...failures },
      },
    },
    async (request) => ({ items: await store.familyLinks.list(request.params.id, actorOf(request)) }),
  );
  api.post(
    '/children/:id/family-links',
    {
      config: clinical,
      schema: {
        ...links,
        summary: 'A signed link to this child’s page for the family; the token is shown once',
        params: idParams,
        body: z.object({
          label: z.string().max(80).default(''),
          days: z.number().int().min(1).max(400).default(90),
        }),
        response: { 201: familyLink.extend({ token: z.string(), path: z.string() }), ...failures },
      },
    },
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
    {
      config: clinical,
      schema: {
        ...links,
        summary: 'Withdraw a link: it opens nothing from now on',
        params: idParams,
        response: { 204: nothing, ...failures },
      },
    },
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        await tx.familyLinks.withdraw(request.params.id, clock.now(), actor);
        return { status: 204, body: null };
      }),
  );

  api.get(
    '/settings',
    {
      config: everyday,
      schema: {
        tags: ['Settings'],
        summary: 'What the clinic has set',
        response: { 200: clinicSettings, ...failures },
      },
    },
    async (_request, reply) => {
      const { value, version } = await store.settings.get();
      return reply.headers(etag(version)).send(value);
    },
  );
  api.patch(
    '/settings',
    {
      config: administration,
      schema: {
        tags: ['Settings'],
        summary: 'Change what is named',
        body: clinicSettings.partial().strict(),
        response: { 200: clinicSettings, ...failures },
      },
    },
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        const changed = await tx.settings.change(request.body, expectedVersion(request), actor);
        return { status: 200, body: changed.value, headers: etag(changed.version) };
      }),
  );
}
