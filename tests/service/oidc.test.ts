import { createServer, type Server } from 'node:http';
import { Provider } from 'oidc-provider';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { oidcClient } from '../../src/service/oidc/oidc-client.js';
import { roleRecheck } from '../../src/service/oidc/recheck-role.js';
import { ownPath } from '../../src/service/sign-in/own-path.js';
import { systemActor } from '../../src/store/contract.js';
import { type TestService, testService } from './test-service.js';

/** A real OpenID provider (oidc-provider from npm) on this machine; people are invented. */
const people: Record<string, Record<string, unknown>> = {
  'sub-1': { name: 'Invented Clinician', preferred_username: 'oidc-clin', role: 'clinician' },
  'sub-3': { name: 'Invented Leaver', preferred_username: 'leaver', role: 'administrator' },
  'sub-2': { name: 'Invented Porter', preferred_username: 'porter', role: 'porter' },
};

describe('sign-in by OpenID Connect', () => {
  let service: TestService;
  let server: Server;
  let issuer: string;
  let laterMs = 0;
  beforeAll(async () => {
    server = createServer();
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    issuer = `http://127.0.0.1:${(server.address() as { port: number }).port}`;
    const provider = new Provider(issuer, {
      clients: [
        {
          client_id: 'doorpost',
          client_secret: 'a secret of the test only',
          redirect_uris: ['http://clinic.test/oidc/callback'],
        },
      ],
      claims: { openid: ['sub'], profile: ['name', 'preferred_username', 'role'] },
      conformIdTokenClaims: false,
      pkce: { required: () => true },
      cookies: { keys: ['a key of the test only'] },
      findAccount: (_ctx: unknown, id: string) => ({
        accountId: id,
        claims: async () => ({ sub: id, ...people[id] }),
      }),
    });
    server.on('request', provider.callback() as () => void);
    service = await testService({
      PUBLIC_URL: 'http://clinic.test',
      OIDC_ISSUER: issuer,
      OIDC_CLIENT_ID: 'doorpost',
      OIDC_CLIENT_SECRET: 'a secret of the test only',
      OIDC_RECHECK_MINUTES: '5',
    });
    const real = service.deps.clock.now;
    service.deps.clock.now = () => new Date(real().getTime() + laterMs);
  });
  afterAll(async () => {
    await service.stop();
    await new Promise((r) => server.close(r));
  });

  /** Goes the way a browser goes through the provider's own sign-in and consent pages; ends at our callback. */
  async function throughProvider(start: string, account: string): Promise<string> {
    const jar = new Map<string, string>();
    let url = start;
    for (let step = 0; step < 12; step++) {
      if (url.startsWith('http://clinic.test/')) return url;
      const cookie = [...jar].map(([k, v]) => `${k}=${v}`).join('; ');
      const page = await fetch(url, { redirect: 'manual', headers: { cookie } });
      const keep = (answer: Response) => {
        for (const c of answer.headers.getSetCookie()) {
          const [k, v] = c.split(';')[0].split('=');
          jar.set(k, v);
        }
      };
      keep(page);
      let answer = page;
      if (page.status === 200) {
        const html = await page.text();
        const action = /action="([^"]+)"/.exec(html)?.[1] as string;
        const prompt = /name="prompt" value="([^"]+)"/.exec(html)?.[1] as string;
        answer = await fetch(new URL(action, url), {
          method: 'POST',
          redirect: 'manual',
          headers: { cookie: [...jar].map(([k, v]) => `${k}=${v}`).join('; ') },
          body: new URLSearchParams(
            prompt === 'login' ? { prompt, login: account, password: 'any' } : { prompt },
          ),
        });
        keep(answer);
      }
      url = new URL(answer.headers.get('location') as string, url).href;
    }
    throw new Error('the provider did not send us back');
  }

  const begin = async (then = '/children') => {
    const start = await service.app.inject({
      url: `/oidc/start?then=${encodeURIComponent(then)}`,
      headers: { host: 'clinic.test' },
    });
    expect(start.statusCode).toBe(303);
    return {
      to: String(start.headers.location),
      cookie: String(start.headers['set-cookie']).split(';')[0],
    };
  };
  const callback = (back: string, cookie: string) =>
    service.app.inject({
      url: back.replace('http://clinic.test', ''),
      headers: { host: 'clinic.test', cookie },
    });

  it('signs in who has a role, with PKCE, state and nonce, and goes where the person wanted', async () => {
    const { to, cookie } = await begin();
    for (const part of ['code_challenge_method=S256', 'state=', 'nonce=']) expect(to).toContain(part);
    const back = await throughProvider(to, 'sub-1');
    const answer = await callback(back, cookie);
    expect(answer.statusCode, answer.body).toBe(303);
    expect(answer.headers.location).toBe('/children');
    const session = String(answer.headers['set-cookie']).split(';')[0];
    expect(session).not.toBe(cookie);
    const who = await service.app.inject({ url: '/api/session', headers: { cookie: session } });
    expect(who.json().user).toMatchObject({ name: 'oidc-clin', role: 'clinician' });
    // The same code a second time is worth nothing.
    expect((await callback(back, cookie)).statusCode).toBe(401);
  });

  describe('a role at the provider, asked again after five minutes', () => {
    const signIn = async () => {
      const { to, cookie } = await begin();
      const answer = await callback(await throughProvider(to, 'sub-3'), cookie);
      return String(answer.headers['set-cookie']).split(';')[0];
    };
    const who = async (cookie: string) => {
      const answer = await service.app.inject({ url: '/api/session', headers: { cookie } });
      return answer.statusCode === 200 ? answer.json().user.role : answer.statusCode;
    };
    const afterMinutes = (minutes: number) => {
      laterMs += minutes * 60_000;
    };

    it('that changed there changes here, in the same session', async () => {
      const cookie = await signIn();
      people['sub-3'].role = 'scheduler';
      afterMinutes(4);
      expect(await who(cookie)).toBe('administrator');
      afterMinutes(2);
      expect(await who(cookie)).toBe('scheduler');
      expect(await who(cookie), 'signed in still').toBe('scheduler');
      people['sub-3'].role = 'administrator';
    });

    it('that was withdrawn there ends every session, token and feed here', async () => {
      const cookies = [await signIn(), await signIn()];
      const user = (await service.store.users.list()).find((u) => u.name === 'leaver');
      const token = await service.store.accessTokens.create(user?.id ?? '', new Date(Date.now() + 10 ** 9));
      people['sub-3'].role = 'porter';
      afterMinutes(6);
      // The requests of one page come together.
      expect(await Promise.all([who(cookies[0]), who(cookies[0]), who(cookies[0])])).toEqual([401, 401, 401]);
      expect(await who(cookies[1])).toBe(401);
      const bearer = await service.app.inject({
        url: '/api/session',
        headers: { authorization: `Bearer ${token}` },
      });
      expect(bearer.statusCode).toBe(401);
      expect(
        (await service.store.audit.list({ action: 'role-withdrawn' }, { limit: 9 })).items.length,
      ).toBeGreaterThan(0);
      people['sub-3'].role = 'administrator';
    });

    it('that the provider refuses to tell is gone at once, with a refresh token and without', async () => {
      const recheck = roleRecheck(oidcClient(service.deps.config.oidc!), service.deps);
      const user = (await service.store.users.list()).find((u) => u.name === 'leaver')!;
      const confirmedAt = service.deps.clock.now().getTime() - 6 * 60_000;
      for (const refreshToken of [null, 'not of this provider']) {
        const oidcRole = { subject: 'sub-3', accessToken: 'nor this', refreshToken, confirmedAt };
        const session = { sessionId: `with ${refreshToken}`, oidcRole };
        expect(await recheck({ id: 'r', session } as never, user)).toBeNull();
      }
    });

    it('that cannot be asked holds for a quarter of an hour and no longer', async () => {
      const cookie = await signIn();
      const answering = server.listeners('request');
      server.removeAllListeners('request');
      server.on('request', (_request, reply) => reply.writeHead(503).end());
      afterMinutes(14);
      expect(await who(cookie)).toBe('administrator');
      afterMinutes(2);
      expect(await who(cookie)).toBe(401);
      server.removeAllListeners('request');
      for (const listener of answering) server.on('request', listener as () => void);
    });
  });

  it('keeps out who has none of our roles', async () => {
    const { to, cookie } = await begin();
    const answer = await callback(await throughProvider(to, 'sub-2'), cookie);
    expect(answer.statusCode).toBe(403);
  });

  it('keeps out whose account is closed here, whatever role the provider still tells', async () => {
    const account = (await service.store.users.list()).find((u) => u.name === 'oidc-clin');
    const disable = async (disabled: boolean) => {
      const { id, version } = await service.store.users.get(account?.id ?? '');
      await service.store.users.change(id, { disabled }, version, systemActor);
    };
    await disable(true);
    const { to, cookie } = await begin();
    const answer = await callback(await throughProvider(to, 'sub-1'), cookie);
    expect(answer.statusCode, answer.body).toBe(403);
    expect(answer.body).toContain('This account is closed');
    await disable(false);
  });

  it('refuses an answer that does not belong to this browser', async () => {
    const mine = await begin();
    const other = await begin();
    const back = await throughProvider(mine.to, 'sub-1');
    expect((await callback(back, other.cookie)).statusCode).toBe(401);
    expect((await service.app.inject({ url: '/oidc/callback?code=x&state=y' })).statusCode).toBe(401);
  });

  it('sends nobody to another site after sign-in', () => {
    for (const then of ['//evil.test', 'https://evil.test', '/\\evil.test', 'javascript:1', undefined])
      expect(ownPath(then)).toBe('/');
    expect(ownPath('/children/c1?tab=2')).toBe('/children/c1?tab=2');
  });
});
