import { z } from 'zod';
import { turnaroundsOf } from '../../clinic/clinic-list.js';
import { newPassword as password, userNamePattern } from '../../records/check/check-account.js';
import { overseers } from '../../records/roles.js';
import {
  auditRow,
  type ClinicSettings,
  capacityOf,
  clinicCapacitySettings,
  clinicSettings,
  familyLink,
  newFamilyLink,
  roles,
  user,
  type Versioned,
} from '../../store/contract.js';
import type { ServiceDeps } from '../dependencies.js';
import { shownLog } from '../shown-log.js';
import { type Api, administration, clinical, everyday, routesOf, tagged } from './api.js';
import { itemsOf, nothing, pageOf, pageQuery } from './schemas/common.js';
import { turnaround } from './schemas/derived.js';

const userName = z.string().max(80).regex(userNamePattern).describe('letters, digits and . _ @ -');
const displayName = z.string().max(120).optional();

export function clinicRoutes(api: Api, deps: ServiceDeps): void {
  watchingRoutes(api, deps);
  userRoutes(api, deps);
  familyLinkRoutes(api, deps);
  settingsRoutes(api, deps);
}

function watchingRoutes(api: Api, deps: ServiceDeps): void {
  const { store, assessor } = deps;
  routesOf(api, deps, ['Turnaround']).get(
    '/turnaround',
    everyday,
    'Days from cast to fitting by device family, learned from the clinic’s own jobs',
    { 200: itemsOf(turnaround) },
    async ({ today }) => {
      const { rules } = (await assessor.current()).context;
      const turnaroundOf = turnaroundsOf(await store.workshopJobs.all(), today, rules);
      return { items: [...rules.keys()].map(turnaroundOf) };
    },
  );
  routesOf(api, deps, ['Audit']).get(
    '/audit',
    { access: overseers },
    'Who read or wrote what, newest first',
    {
      querystring: pageQuery.extend({
        childId: z.string().max(80).optional(),
        userId: z.string().max(80).optional(),
        action: z.string().max(40).optional(),
        from: z.iso.datetime({ offset: true }).max(40).optional(),
        to: z.iso.datetime({ offset: true }).max(40).optional(),
      }),
      200: pageOf(auditRow),
    },
    async ({ query: { limit, cursor, ...filter }, actor }) =>
      shownLog(store, filter, { limit, cursor }, actor),
  );
}

const versioned = <T extends { readonly version: number }>(value: T) =>
  tagged({ value, version: value.version });

function userRoutes(api: Api, deps: ServiceDeps): void {
  const { store } = deps;
  const { get, write } = routesOf(api, deps, ['Users']);

  get('/users', administration, 'Accounts', { 200: itemsOf(user) }, async () => ({
    items: await store.users.list(),
  }));
  write(
    'POST /users',
    administration,
    'Add an account',
    {
      body: z.object({ name: userName, displayName, role: z.enum(roles), password }),
      201: user,
    },
    async ({ tx, body, actor }) => versioned(await tx.users.create(body, actor)),
  );
  get('/users/:id', administration, 'One account', { 200: user }, async ({ id }) =>
    versioned(await store.users.get(id)),
  );
  write(
    'PATCH /users/:id',
    administration,
    'Change role, name or password, or close an account; ends its sessions',
    {
      body: z.strictObject({
        displayName,
        role: z.enum(roles).optional(),
        disabled: z.boolean().optional(),
        password: password.optional(),
      }),
      200: user,
    },
    async ({ tx, id, body, expected, actor }) => versioned(await tx.users.change(id, body, expected, actor)),
  );
}

function familyLinkRoutes(api: Api, deps: ServiceDeps): void {
  const { store, clock, config } = deps;
  const { get, write } = routesOf(api, deps, ['Family links']);

  get(
    '/children/:id/family-links',
    clinical,
    'Links given to this family',
    { 200: itemsOf(familyLink) },
    async ({ id, actor }) => ({ items: await store.familyLinks.list(id, actor) }),
  );
  write(
    'POST /children/:id/family-links',
    clinical,
    'A signed link to this child’s page for the family; the token is shown once',
    {
      body: newFamilyLink,
      201: familyLink.extend({ token: z.string(), path: z.string() }),
    },
    async ({ tx, id, body: { label, days }, actor }) => {
      const link = await tx.familyLinks.create(id, label, days, clock.now(), actor);
      return { ...link, path: `${config.publicUrl ?? ''}/family/${link.token}` };
    },
  );
  write(
    'DELETE /family-links/:id',
    clinical,
    'Withdraw a link: it opens nothing from now on',
    { 204: nothing },
    ({ tx, id, actor }) => tx.familyLinks.withdraw(id, clock.now(), actor),
  );
}

function settingsRoutes(api: Api, deps: ServiceDeps): void {
  const { get, write } = routesOf(api, deps, ['Settings']);
  get('/settings', everyday, 'What the clinic has set', { 200: clinicSettings }, async () =>
    tagged(await deps.store.settings.get()),
  );
  write(
    'PATCH /settings',
    administration,
    'Change what is named',
    { body: clinicSettings.partial().strict(), 200: clinicSettings },
    async ({ tx, body, expected, actor }) => tagged(await tx.settings.change(body, expected, actor)),
  );
  // What the planning reckons with. Whoever plans keeps it, so it is open to more roles than the other settings.
  const capacity = ({ value, version }: Versioned<ClinicSettings>) =>
    tagged({ value: capacityOf(value), version });
  get(
    '/capacity',
    everyday,
    'Casting slots, workshop jobs, holidays and closed days',
    { 200: clinicCapacitySettings },
    async () => capacity(await deps.store.settings.get()),
  );
  write(
    'PATCH /capacity',
    everyday,
    'Change what is named; the next recall list is planned with it',
    { body: clinicCapacitySettings.partial().strict(), 200: clinicCapacitySettings },
    async ({ tx, body, expected, actor }) => capacity(await tx.settings.change(body, expected, actor)),
  );
}
