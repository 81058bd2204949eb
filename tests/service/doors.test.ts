import { brotliDecompressSync, gzipSync } from 'node:zlib';
import fastify from 'fastify';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { checkAccess } from '../../src/service/access.js';
import { calendarFeedPath } from '../../src/service/calendar-feed.js';
import { configuration } from '../../src/service/configuration.js';
import { ownPath } from '../../src/service/sign-in/own-path.js';
import { systemActor } from '../../src/store/contract.js';
import { type TestService, testService } from './test-service.js';

const ask = async (url: string, question: string) => {
  const client = new pg.Client(url);
  await client.connect();
  try {
    return await client.query(question);
  } finally {
    await client.end();
  }
};
const form = { 'content-type': 'application/x-www-form-urlencoded' };

describe('where a sign-in leads', () => {
  it.each([
    '/\t/evil.example',
    '/%09/evil.example'.replace('%09', '\t'),
    '//evil.example',
    '//evil.example/children',
    '/\\evil.example',
    '/\n/evil.example',
    '\\\\evil.example',
    'https://evil.example',
    '/.//evil.example',
    '/..//evil.example',
    'javascript:alert(1)',
    'http:evil.example',
    '',
    ['/children', '//evil.example'],
    undefined,
  ])('%j is not followed', (then) => {
    expect(ownPath(then)).toBe('/');
  });
  it.each(['/children/c1?tab=2#x', '/recall?q=a%20b', '/children/%09'])('%s is', (then) => {
    expect(ownPath(then)).toBe(then);
  });
});

it('a route that does not say who may use it ends the start', () => {
  const app = fastify();
  checkAccess(app, null as never);
  expect(() => app.get('/open', () => 'to all')).toThrow(/GET \/open does not say who may use it/);
});

describe('proxies that are believed', () => {
  const trusted = (value: string) => configuration({ TRUSTED_PROXIES: value }).trustedProxies;
  it('are named', () => {
    expect(trusted('')).toEqual([]);
    expect(trusted('loopback, 10.0.0.7,10.1.0.0/16, fd00::/8')).toEqual([
      'loopback',
      '10.0.0.7',
      '10.1.0.0/16',
      'fd00::/8',
    ]);
  });
  it.each(['on', 'true', '1', '0.0.0.0/0', '::/0', '10.0.0.0/40', 'proxy.example'])(
    '%s names none',
    (value) => {
      expect(() => trusted(value)).toThrow(/TRUSTED_PROXIES/);
    },
  );
  it('the switch that believed everybody is refused, with what to do', () => {
    expect(() => configuration({ TRUST_PROXY: 'on' })).toThrow(/name the proxies in TRUSTED_PROXIES/);
  });
});

describe('sign-in', () => {
  let service: TestService;
  let now: Date | null = null;
  const at = (minutes: number) => {
    now = new Date(Date.now() + minutes * 60_000);
  };
  beforeAll(async () => {
    service = await testService(
      { SIGN_IN_RATE_LIMIT: '1000', SESSION_HOURS: '2', SESSION_IDLE_MINUTES: '30' },
      1,
    );
    const real = service.deps.clock.now;
    service.deps.clock.now = () => now ?? real();
  });
  afterAll(() => service.stop());

  const account = async (name: string, role: 'clinician' | 'administrator' = 'clinician') => {
    const user = await service.store.users.create(
      { name, role, password: `first password of ${name}` },
      systemActor,
    );
    return { user, password: `first password of ${name}` };
  };
  const api = (name: string, password: string) =>
    service.app.inject({ method: 'POST', url: '/api/session', payload: { name, password } });
  const page = (name: string, password: string, then = '/children') =>
    service.app.inject({
      method: 'POST',
      url: '/sign-in',
      headers: form,
      payload: new URLSearchParams({ name, password, then }).toString(),
    });
  const cookieOf = (answer: { headers: Record<string, unknown> }) =>
    String(answer.headers['set-cookie']).split(';')[0];
  const who = async (headers: Record<string, string>) =>
    (await service.app.inject({ url: '/api/session', headers })).statusCode;
  const log = async (action: string) => (await service.store.audit.list({ action }, { limit: 100 })).items;

  it('a token that has run out opens nothing', async () => {
    const { user } = await account('tokens');
    const token = await service.store.accessTokens.create(user.id, new Date(Date.now() + 600));
    const bearer = { authorization: `Bearer ${token}` };
    expect(await who(bearer)).toBe(200);
    at(1);
    expect(await who(bearer)).toBe(401);
    now = null;
  });

  it('a user who may not sign in any more does not, by page, interface, token or session', async () => {
    const { user, password } = await account('leaver');
    const cookie = cookieOf(await page('leaver', password));
    const { token } = (await api('leaver', password)).json();
    expect([await who({ cookie }), await who({ authorization: `Bearer ${token}` })]).toEqual([200, 200]);
    await service.store.users.change(user.id, { disabled: true }, null, systemActor);
    expect([await who({ cookie }), await who({ authorization: `Bearer ${token}` })]).toEqual([401, 401]);
    expect((await api('leaver', password)).statusCode).toBe(401);
    expect((await page('leaver', password)).statusCode).toBe(401);
    // Also a token that is there all the same.
    const left = await service.store.accessTokens.create(user.id, new Date(Date.now() + 60_000));
    expect(await who({ authorization: `Bearer ${left}` })).toBe(401);
  });

  it('a session and a calendar’s address of a user who was closed behind the service’s back open nothing', async () => {
    const { user, password } = await account('closed');
    const cookie = cookieOf(await page('closed', password));
    const url = await calendarFeedPath(service.store, user.id);
    const opened = async () => [await who({ cookie }), (await service.app.inject({ url })).statusCode];
    const set = (what: string) =>
      ask(service.database.url, `update users set ${what} where id = '${user.id}'`);
    expect(await opened()).toEqual([200, 200]);
    await set("role = 'auditor'");
    expect(await opened()).toEqual([200, 403]);
    await set("role = 'clinician', disabled = true");
    expect(await opened()).toEqual([401, 403]);
  });

  it('a session known before the sign-in is worth nothing after it', async () => {
    const { password } = await account('fixed');
    const before = cookieOf(await page('fixed', password));
    const known = await service.app.inject({ url: '/api/session', headers: { cookie: before } });
    const answer = await service.app.inject({
      method: 'POST',
      url: '/sign-in',
      headers: { ...form, cookie: before, 'x-csrf-token': known.json().csrfToken },
      payload: new URLSearchParams({ name: 'fixed', password }).toString(),
    });
    expect(await who({ cookie: cookieOf(answer) })).toBe(200);
    expect(await who({ cookie: before })).toBe(401);
  });

  it('the new password of a form without one is refused and ends no session', async () => {
    const { user, password } = await account('kept');
    const cookie = cookieOf(await page('kept', password));
    for (const payload of ['', 'password='])
      expect(
        (
          await service.as('administrator', {
            method: 'POST',
            url: `/users/${user.id}/password`,
            headers: form,
            payload,
          })
        ).statusCode,
      ).toBe(422);
    const nothing = await service.as('administrator', {
      method: 'PATCH',
      url: `/api/users/${user.id}`,
      headers: { 'if-match': '*' },
      payload: {},
    });
    expect(nothing.statusCode).toBe(422);
    expect(await who({ cookie })).toBe(200);
  });

  it('an account waits after five wrong passwords from anywhere, known or not, also for the right one', async () => {
    const { password } = await account('guessed');
    for (const name of ['guessed', 'nobody-of-this-name']) {
      for (let i = 0; i < 5; i++) expect((await api(name, 'wrong')).statusCode).toBe(401);
      expect((await api(name, password)).statusCode).toBe(429);
      expect((await page(name, password)).statusCode).toBe(429);
    }
    at(1);
    expect((await api('Guessed', password)).statusCode).toBe(201);
    // Who guessed, and who got in, is read in the log.
    const why = (await log('sign-in-failed')).map((row) => [row.detail.nameTried, row.detail.why]);
    for (const name of ['guessed', 'nobody-of-this-name'])
      for (const reason of ['name or password', 'too many tries']) expect(why).toContainEqual([name, reason]);
    expect((await log('sign-in')).map((row) => [row.userName, row.detail.by])).toContainEqual([
      'guessed',
      'token',
    ]);
    // A success begins the count anew.
    for (let i = 0; i < 4; i++) expect((await api('guessed', 'wrong')).statusCode).toBe(401);
    expect((await api('guessed', password)).statusCode).toBe(201);
    now = null;
  });

  it('many wrong passwords at once are not many guesses', async () => {
    await account('at-once');
    const answers = await Promise.all(Array.from({ length: 30 }, () => api('at-once', 'wrong')));
    expect(answers.filter((a) => a.statusCode === 401)).toHaveLength(5);
    // Where passwords take their time the tries come one by one; here they do not.
    for (const name of ['first-round', 'second-round', 'third-round']) {
      const begun = Array.from({ length: 30 }, () => service.store.signInTries.begin(name, new Date()));
      expect((await Promise.all(begun)).filter((wait) => wait === null)).toHaveLength(5);
    }
  });

  it('a failed sign-in stands in the log with the name that was tried, however odd', async () => {
    for (const name of ['Mistyped.Name', 'nul\0in it', '\ud800 half'])
      expect((await page(name, 'wrong\0')).statusCode).toBe(401);
    // Only the password has to be typed again, and the address says nothing of it.
    expect((await page('Mistyped.Name', 'wrong')).body).toContain('value="Mistyped.Name"');
    const tried = (await log('sign-in-failed')).map((row) => row.detail.nameTried);
    expect(tried).toEqual(expect.arrayContaining(['mistyped.name', 'nul\ufffdin it']));
    expect(JSON.stringify(await log('sign-in-failed'))).not.toContain('wrong');
  });

  it('a session ends so long after it began, whatever was done with it, and sooner when idle', async () => {
    const { password } = await account('long-day');
    now = null;
    const cookie = cookieOf(await page('long-day', password));
    // The store keeps an idle session half an hour only.
    const {
      rows: [row],
    } = await ask(
      service.database.url,
      "select extract(epoch from expires_at - now()) / 60 as minutes from sessions where data ->> 'startedAt' is not null order by expires_at desc limit 1",
    );
    expect(Number(row.minutes)).toBeGreaterThan(29);
    expect(Number(row.minutes)).toBeLessThan(31);
    at(119);
    expect(await who({ cookie })).toBe(200);
    at(121);
    expect(await who({ cookie })).toBe(401);
    now = null;
    expect(await who({ cookie })).toBe(401);
  });

  it('a page asked for by a bearer token leaves no session behind', async () => {
    const { user } = await account('by-token');
    const token = await service.store.accessTokens.create(user.id, new Date(Date.now() + 60_000));
    const sessions = async () =>
      (await ask(service.database.url, 'select count(*)::int as n from sessions')).rows[0].n;
    const before = await sessions();
    const answer = await service.app.inject({
      url: '/children',
      headers: { authorization: `Bearer ${token}` },
    });
    expect([answer.statusCode, answer.headers['set-cookie'], await sessions()]).toEqual([
      200,
      undefined,
      before,
    ]);
  });

  it('use of a session is written once a minute, not at every request, and its idle life begins anew then', async () => {
    const { user, password } = await account('busy-day');
    const row = async () =>
      (
        await ask(
          service.database.url,
          `select xmin::text as written, expires_at from sessions where data ->> 'userId' = '${user.id}'`,
        )
      ).rows[0];
    const start = Math.ceil(Date.now() / 60_000) * 60_000;
    const atSecond = (seconds: number) => {
      now = new Date(start + seconds * 1000);
    };
    atSecond(1);
    const cookie = cookieOf(await page('busy-day', password));
    expect(await who({ cookie })).toBe(200);
    const first = await row();
    atSecond(59);
    expect([await who({ cookie }), await who({ cookie })]).toEqual([200, 200]);
    expect(await row()).toEqual(first);
    atSecond(61);
    expect(await who({ cookie })).toBe(200);
    const later = await row();
    expect(later.written).not.toBe(first.written);
    expect(later.expires_at.getTime()).toBeGreaterThan(first.expires_at.getTime());
    await ask(
      service.database.url,
      `update sessions set expires_at = now() - interval '1 second' where data ->> 'userId' = '${user.id}'`,
    );
    expect(await who({ cookie })).toBe(401);
    now = null;
  });

  it('everybody changes the own password, by the present one; other sessions end', async () => {
    const { password } = await account('changer');
    const mine = cookieOf(await page('changer', password));
    const other = cookieOf(await page('changer', password));
    const shown = await service.app.inject({ url: '/password', headers: { cookie: mine } });
    const csrf = /name="_csrf" value="([^"]+)"/.exec(shown.body)?.[1] ?? '';
    const change = (present: string, next: string, again = next) =>
      service.app.inject({
        method: 'POST',
        url: '/password',
        headers: { ...form, cookie: mine },
        payload: new URLSearchParams({ _csrf: csrf, present, next, again }).toString(),
      });
    expect((await change('not the present one', 'second password')).statusCode).toBe(422);
    expect((await change(password, 'second password', 'other password')).statusCode).toBe(422);
    // Eleven characters that nobody guesses.
    expect((await change(password, 'Xk3-paZ_91q')).statusCode).toBe(422);
    expect((await change(password, password)).statusCode).toBe(422);
    const done = await change(password, 'second password');
    expect(done.statusCode).toBe(303);
    expect([await who({ cookie: cookieOf(done) }), await who({ cookie: other })]).toEqual([200, 401]);
    expect((await api('changer', password)).statusCode).toBe(401);
    const { token } = (await api('changer', 'second password')).json();
    const bearer = { authorization: `Bearer ${token}` };
    const byApi = (present: string) =>
      service.app.inject({
        method: 'PUT',
        url: '/api/session/password',
        headers: bearer,
        payload: { present, next: 'third password' },
      });
    expect((await byApi('wrong')).statusCode).toBe(422);
    expect((await byApi('second password')).statusCode).toBe(204);
    expect(await who(bearer)).toBe(401);
  });

  // OWASP ASVS 4 V2.3.1, V2.1.7, V3.3.3, from memory.
  it('a password that an administrator gave opens nothing but its own change', async () => {
    const made = await service.as('administrator', {
      method: 'POST',
      url: '/api/users',
      payload: { name: 'newcomer', role: 'clinician', password: 'given at the desk' },
    });
    expect(made.statusCode).toBe(201);
    const { token } = (await api('newcomer', 'given at the desk')).json();
    const bearer = { authorization: `Bearer ${token}` };
    const children = () => service.app.inject({ url: '/api/children', headers: bearer });
    expect((await children()).statusCode).toBe(403);
    expect((await children()).body).toContain('Change the password that you were given first');
    const cookie = cookieOf(await page('newcomer', 'given at the desk'));
    const opened = await service.app.inject({ url: '/children', headers: { cookie, accept: 'text/html' } });
    expect(opened.headers.location).toBe('/password');
    const own = { present: 'given at the desk', next: 'known to me alone' };
    const changed = await service.app.inject({
      method: 'PUT',
      url: '/api/session/password',
      headers: bearer,
      payload: own,
    });
    expect(changed.statusCode).toBe(204);
    const mine = (await api('newcomer', own.next)).json().token;
    const after = await service.app.inject({
      url: '/api/children',
      headers: { authorization: `Bearer ${mine}` },
    });
    expect(after.statusCode).toBe(200);
  });

  it.each(['123456789012', 'password1234', 'qwertyuiop12', 'aaaaaaaaaaaa', 'Easilyguessed1'])(
    'the password %s is refused as easy to guess',
    async (password) => {
      const made = await service.as('administrator', {
        method: 'POST',
        url: '/api/users',
        payload: { name: 'easilyguessed', role: 'clinician', password },
      });
      expect(made.statusCode).toBe(422);
      expect(made.body).toContain('easy to guess');
    },
  );

  it('everybody ends the own sessions elsewhere and the address of the calendar, and stays signed in here', async () => {
    const { password } = await account('forgetful');
    const here = cookieOf(await page('forgetful', password));
    const there = cookieOf(await page('forgetful', password));
    const shown = await service.app.inject({ url: '/recall/calendar', headers: { cookie: here } });
    const csrf = /name="_csrf" value="([^"]+)"/.exec(shown.body)?.[1] ?? '';
    const address = /value="https?:\/\/[^/]+(\/api\/calendar-feed\/[^"]+)"/.exec(shown.body)?.[1] ?? '';
    const feed = async () => (await service.app.inject({ url: address })).statusCode;
    expect(await feed()).toBe(200);
    const done = await service.app.inject({
      method: 'POST',
      url: '/password/elsewhere',
      headers: { ...form, cookie: here },
      payload: new URLSearchParams({ _csrf: csrf }).toString(),
    });
    expect(done.statusCode).toBe(303);
    expect([await who({ cookie: cookieOf(done) }), await who({ cookie: there })]).toEqual([200, 401]);
    expect(await feed()).toBe(403);
  });

  it('erasing a child on its page wants the number, a reason and the password again', async () => {
    const id = (await service.store.caseload.ids('any'))[0];
    const { password } = await account('eraser', 'administrator');
    const cookie = cookieOf(await page('eraser', password));
    const url = `/children/${encodeURIComponent(id)}/record`;
    const shown = await service.app.inject({ url, headers: { cookie } });
    const csrf = /name="_csrf" value="([^"]+)"/.exec(shown.body)?.[1] ?? '';
    const erase = (given: Record<string, string>) =>
      service.app.inject({
        method: 'POST',
        url: `${url}/erase`,
        headers: { ...form, cookie },
        payload: new URLSearchParams({
          _csrf: csrf,
          number: id,
          reason: 'asked by the family',
          password,
          ...given,
        }).toString(),
      });
    const wrongs: Record<string, string>[] = [{ number: 'other' }, { reason: ' ' }, { password: 'not it' }];
    for (const wrong of wrongs) expect((await erase(wrong)).statusCode).toBe(422);
    expect(await service.store.caseload.ids('any')).toContain(id);
    expect((await erase({})).headers.location).toBe('/children?notice=child-erased');
    expect(await service.store.caseload.ids('any')).not.toContain(id);
  });

  it('guessing the present password of a session left open has to wait too', async () => {
    const { password } = await account('left-open');
    const { token } = (await api('left-open', password)).json();
    const guess = () =>
      service.app.inject({
        method: 'PUT',
        url: '/api/session/password',
        headers: { authorization: `Bearer ${token}` },
        payload: { present: 'wrong', next: 'another password' },
      });
    for (let i = 0; i < 5; i++) expect((await guess()).statusCode).toBe(422);
    expect((await guess()).statusCode).toBe(429);
  });

  it('metrics are for this machine alone, and behind a proxy for nobody without the token', async () => {
    const metrics = (headers: Record<string, string>, remoteAddress = '127.0.0.1') =>
      service.app.inject({ url: '/metrics', headers: { host: 'localhost:3000', ...headers }, remoteAddress });
    expect((await metrics({})).statusCode).toBe(200);
    expect((await metrics({}, '10.0.0.5')).statusCode).toBe(401);
    expect((await metrics({ 'x-forwarded-for': '127.0.0.1' }, '10.0.0.5')).statusCode).toBe(401);
    expect((await metrics({ 'x-forwarded-for': '8.8.8.8' })).statusCode).toBe(401);
    expect((await metrics({ host: 'clinic.example' })).statusCode).toBe(401);
  });

  it('answers go out compressed where a browser takes it; what comes in compressed is not unpacked', async () => {
    const ask = (encoding: string, more: object = {}) =>
      service.as('clinician', {
        url: '/children',
        headers: { accept: 'text/html', 'accept-encoding': encoding },
        ...more,
      } as never);
    const plain = await ask('identity');
    const small = await ask('br');
    expect(small.headers['content-encoding']).toBe('br');
    expect(small.rawPayload.length).toBeLessThan(plain.rawPayload.length / 2);
    expect(brotliDecompressSync(small.rawPayload).toString()).toContain('</html>');
    const packed = await ask('identity', {
      method: 'POST',
      url: '/api/children',
      headers: { 'content-type': 'application/json', 'content-encoding': 'gzip' },
      payload: gzipSync(Buffer.alloc(50_000_000)),
    });
    expect([400, 413, 415]).toContain(packed.statusCode);
  });

  it('what comes twice, or to nowhere, or with a control character is 4xx in words', async () => {
    const as = (options: object) => service.as('administrator', options as never);
    expect((await as({ url: '/children?q=a&q=b' })).statusCode).toBe(400);
    expect((await as({ url: '/api/audit?action=a&action=b' })).statusCode).toBe(400);
    expect((await as({ url: '/sign-in?then=/a&then=/b' })).statusCode).toBe(400);
    expect(
      (await as({ method: 'POST', url: '/users', headers: form, payload: 'name=a&name=b' })).statusCode,
    ).toBe(400);
    expect((await as({ method: 'POST', url: '/nowhere', payload: { a: 1 } })).statusCode).toBe(404);
    for (const url of [
      '/children?q=%00',
      '/children/%00',
      '/api/children/%00',
      '/access-log?childId=%00',
      '/access-log?from=x',
    ])
      for (const answer of [await as({ url }), await as({ url, headers: { accept: 'text/html' } })]) {
        expect(answer.statusCode, `${url} ${answer.body.slice(0, 200)}`).toBeLessThan(500);
      }
  });
});

describe('behind a proxy that is named', () => {
  let service: TestService;
  beforeAll(async () => {
    service = await testService({ TRUSTED_PROXIES: '10.0.0.7', SIGN_IN_RATE_LIMIT: '3' }, 1);
    Object.assign(service.deps, {
      demoSignIns: [{ name: 'demo-x', password: 'shown-here', role: 'clinician' }],
    });
  });
  afterAll(() => service.stop());
  const signIn = (remoteAddress: string, forwarded: string, i: number) =>
    service.app.inject({
      method: 'POST',
      url: '/api/session',
      remoteAddress,
      headers: { 'x-forwarded-for': forwarded },
      payload: { name: `n${i}`, password: 'wrong' },
    });

  it('anybody else who writes X-Forwarded-For stays one address to the sign-in limit', async () => {
    const statuses = [];
    for (let i = 0; i < 4; i++) statuses.push((await signIn('192.0.2.9', `198.51.100.${i}`, i)).statusCode);
    expect(statuses).toEqual([401, 401, 401, 429]);
  });

  it('the proxy is believed: its clients are many addresses', async () => {
    for (let i = 0; i < 4; i++)
      expect((await signIn('10.0.0.7', `198.51.100.${i}`, i + 10)).statusCode).toBe(401);
  });

  it('metrics are closed to this machine as well, and the demo shows no password', async () => {
    const local = { remoteAddress: '127.0.0.1', headers: { host: 'localhost' } };
    expect((await service.app.inject({ url: '/metrics', ...local })).statusCode).toBe(401);
    expect((await service.app.inject({ url: '/sign-in', ...local })).body).not.toContain('shown-here');
  });
});

describe('the demo', () => {
  it('shows its passwords on this machine and nowhere else', async () => {
    const service = await testService({}, 1);
    Object.assign(service.deps, {
      demoSignIns: [{ name: 'demo-x', password: 'shown-here', role: 'clinician' }],
    });
    const page = async (remoteAddress: string, headers: Record<string, string>) =>
      (await service.app.inject({ url: '/sign-in', remoteAddress, headers })).body;
    expect(await page('127.0.0.1', { host: 'localhost:3000' })).toContain('shown-here');
    for (const [address, headers] of [
      ['192.168.1.5', { host: 'localhost:3000' }],
      ['127.0.0.1', { host: 'clinic.example' }],
      ['127.0.0.1', { host: 'localhost', 'x-forwarded-for': '192.0.2.1' }],
    ] as const) {
      const body = await page(address, headers);
      expect(body).toContain('demo-x');
      expect(body).not.toContain('shown-here');
    }
    await service.stop();
  });
});
