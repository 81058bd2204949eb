/** A person gets a page with a way back, a program gets problem+json (RFC 9457), from one and the same fault. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { renderSvg } from '../../src/charts/render-chart.js';
import type { Role } from '../../src/store/contract.js';
import { type TestService, testService } from './test-service.js';

// What Chromium sends when an address is opened.
const browser = 'text/html,application/xhtml+xml,application/xml;q=0.9,image/avif,*/*;q=0.8';

describe('faults as pages', () => {
  let service: TestService;
  beforeAll(async () => {
    service = await testService();
  });
  afterAll(() => service.stop());

  const open = (role: Role | null, url: string, accept = browser, headers = {}) =>
    service.as(role, { url, headers: { accept, ...headers } });

  it.each([
    ['an address that leads nowhere', '/no/such/place', 404, 'There is nothing at this address'],
    ['an unknown child', '/children/nobody', 404, 'There is no such child'],
    ['an unknown device', '/children/c0/devices/none', 404, 'no such device'],
    ['a page of another role', '/users', 403, 'You are signed in as clinician. Accepted here: administrator'],
    ['an address the router cannot read', '/children/%E0%A4%A', 400, 'is not a valid url'],
  ])('%s: a page in our layout, in words, with a link back', async (_what, url, status, words) => {
    const answer = await open('clinician', url);
    expect(answer.statusCode).toBe(status);
    expect(answer.headers['content-type']).toContain('text/html');
    expect(answer.body).toContain(words);
    expect(answer.body).toContain('<a class="brand" href="/">');
    expect(answer.body).toMatch(/<main.*<a href="\/">.*<\/main>/s);
    expect(answer.body).not.toContain('requestId');
  });

  it('keeps the navigation, and leads back to where the reader came from', async () => {
    const answer = await open('clinician', '/no/such/place', browser, {
      host: 'localhost',
      referer: 'http://localhost/children?text=x',
    });
    expect(answer.body).toContain('aria-label="Main"');
    expect(answer.body).toContain('<a href="/children?text=x">Go back</a>');
    const elsewhere = await open('clinician', '/no/such/place', browser, { referer: 'http://evil.test/x' });
    expect(elsewhere.body).not.toContain('evil.test');
  });

  it('offers sign-in to someone who is not signed in, without navigation', async () => {
    const answer = await open(null, '/no/such/place');
    expect(answer.statusCode).toBe(404);
    expect(answer.body).toContain('>Sign in</a>');
    expect(answer.body).not.toContain('aria-label="Main"');
  });

  it('offers no sign-in to a family whose link is over', async () => {
    const answer = await open(null, '/family/1.1.none');
    expect(answer.statusCode).toBe(403);
    expect(answer.body).toContain('ask the clinic for a new one');
    expect(answer.body).not.toContain('>Sign in</a>');
  });

  it.each([
    ['the interface, whatever is accepted', '/api/no/such/place', browser, 404],
    ['the interface for an unknown child', '/api/children/nobody', browser, 404],
    ['the interface for another role', '/api/users', browser, 403],
    ['a program at an unknown address', '/no/such/place', 'application/json', 404],
    ['a program at an unknown child', '/children/nobody', 'application/json', 404],
    ['a program with an address that cannot be read', '/children/%E0%A4%A', 'application/json', 400],
  ])('%s: problem+json', async (_what, url, accept, status) => {
    const answer = await open('clinician', url, accept);
    expect(answer.statusCode).toBe(status);
    expect(answer.headers['content-type']).toContain('application/problem+json');
    expect(answer.json()).toMatchObject({ status, requestId: expect.any(String) });
  });

  // Vega-Lite does not know the channel 'banana' and says so.
  it('a chart that raises a warning is drawn, and the log has the warning', async () => {
    const said: unknown[] = [];
    const { warn } = service.app.log;
    service.app.log.warn = (line: unknown) => said.push(line) as never;
    const encoding = { banana: { field: 'a', type: 'quantitative' } };
    const $schema = 'https://vega.github.io/schema/vega-lite/v6.json';
    const warns = { $schema, data: { values: [{ a: 1 }] }, mark: 'point', encoding };
    expect(await renderSvg(warns as never)).toContain('<svg');
    expect(JSON.stringify(said)).toContain('banana');
    service.app.log.warn = warn;
  });
});
