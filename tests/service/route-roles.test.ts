import type { InjectOptions } from 'fastify';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Role, roles } from '../../src/store/contract.js';
import { onServer } from '../database/one-postgres.js';
import { routeRoles } from './route-roles.js';
import { type TestService, testService } from './test-service.js';

const letter: Record<Role, string> = { clinician: 'c', scheduler: 's', administrator: 'a', auditor: 'u' };

describe('every route and every role', () => {
  let service: TestService;
  beforeAll(async () => {
    service = await testService();
  });
  afterAll(() => service.stop());

  it('stands in the table, and the table names nothing else', () => {
    const served = [...service.app.accessTable.keys()].filter((r) => !r.startsWith('HEAD '));
    expect(served.sort()).toEqual(Object.keys(routeRoles).sort());
  });

  it.each(Object.entries(routeRoles))('%s for %s only', async (route, allowed) => {
    const [method, pattern] = route.split(' ');
    // A record that does not exist: what is checked is the door, not the room.
    const url = pattern.replace(/:\w+/g, 'none');
    // Signing out, or changing an account, must not lock the other checks out.
    const ends = /session|sign-out|password|users/.test(pattern) && method !== 'GET';
    const ask = async (role: Role | null) => {
      const answer = await service.as(role, {
        method: method as InjectOptions['method'],
        url,
        ...(method === 'GET' || method === 'DELETE' ? {} : { payload: {} }),
      } as InjectOptions);
      if (role && ends)
        service.tokens[role] = await service.store.accessTokens.create(
          (await service.store.users.list()).find((u) => u.name === role)?.id ?? '',
          new Date(Date.now() + 3_600_000),
        );
      const type = String(answer.headers['content-type']);
      return { status: answer.statusCode, code: type.includes('problem+json') ? answer.json().code : null };
    };
    const outside = await ask(null);
    if (allowed === 'public') expect(outside.code).not.toBe('not-allowed');
    else expect(outside).toEqual({ status: 401, code: 'not-signed-in' });
    for (const role of roles) {
      const { status, code } = await ask(role);
      if (allowed === 'public' || allowed.includes(letter[role])) {
        expect(code, `${role} ${status}`).not.toBe('not-allowed');
        expect(code, `${role} ${status}`).not.toBe('not-signed-in');
        expect(status, role).toBeLessThan(500);
      } else expect({ role, status, code }).toEqual({ role, status: 403, code: 'not-allowed' });
    }
  });

  // The last that asks the database: it is gone after.
  describe('while the database is away', () => {
    const database = () => new URL(service.database.url).pathname.slice(1);
    beforeAll(async () => {
      const server = service.database.url.replace(/[^/]+$/, 'postgres');
      await onServer(server, `alter database ${database()} with allow_connections false`);
      await onServer(
        server,
        `select pg_terminate_backend(pid) from pg_stat_activity where datname = '${database()}'`,
      );
    });
    afterAll(async () => {
      const server = service.database.url.replace(/[^/]+$/, 'postgres');
      await onServer(server, `alter database ${database()} with allow_connections true`);
    });

    it.each(Object.entries(routeRoles))('%s answers at once', async (route, allowed) => {
      const [method, pattern] = route.split(' ');
      const role = roles.find((r) => allowed !== 'public' && allowed.includes(letter[r])) ?? null;
      const answer = await service.as(role, {
        method: method as 'GET',
        url: pattern.replace(/:\w+/g, 'none'),
        ...(method === 'GET' || method === 'DELETE' ? {} : { payload: {} }),
      });
      if (allowed === 'public' && answer.statusCode < 500) return;
      expect(answer.statusCode, answer.body).toBe(503);
      expect(answer.headers['retry-after']).toBe('5');
      expect(answer.json().code).toBe('database-unavailable');
    });

    it('metrics are read all the same and say that it does not answer', async () => {
      const { statusCode, body } = await service.as(null, { url: '/metrics' });
      expect(statusCode).toBe(200);
      expect(body).toContain('doorpost_database_answers 0');
      expect(body).toMatch(/^doorpost_children_assessed Nan$/im);
    });

    it('readiness says so, health does not mind', async () => {
      expect((await service.as(null, { url: '/ready' })).json()).toMatchObject({
        code: 'database-unavailable',
      });
      expect((await service.as(null, { url: '/health' })).statusCode).toBe(200);
    });
  });

  it('leads a browser that is not signed in to the sign-in page', async () => {
    const answer = await service.app.inject({ url: '/children', headers: { accept: 'text/html' } });
    expect(answer.statusCode).toBe(303);
    expect(answer.headers.location).toBe('/sign-in?then=%2Fchildren');
  });
});
