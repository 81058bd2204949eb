import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Role, roles } from '../../src/store/contract.js';
import { lastRoutes } from '../operations/fuzz/requests.js';
import { routeRoles } from './route-roles.js';
import { type TestService, testService } from './test-service.js';

/** Of the processor, not of the clock: a busy machine changes nothing. The dearest is a backup. */
const MOST_CPU_MS = 1500;
const MOST_BYTES = 2_000_000;

const roleOf: Readonly<Record<string, Role>> = Object.fromEntries(roles.map((r) => [r[0], r]));
const lastly = new Set(lastRoutes.map(([route]) => route));
const ids: Readonly<Record<string, string>> = {
  devices: 'c0-d',
  device: 'c0-d',
  events: 'c0-e',
  event: 'c0-e',
  measurements: 'c0-m0left',
  measure: 'foot_length',
  family: 'solid-afo',
};
const pathOf = (pattern: string) =>
  pattern.replace(/([\w-]+)\/:(\w+)/g, (_, before, name) => `${before}/${ids[name] ?? ids[before] ?? 'c0'}`);

/** Everything a page or the interface asks of an address, as much of it as fits. */
const addresses = [
  'from=0001-01-01&to=9999-12-31&date=9999-12-31&month=9999-12&months=1000000&castDate=9999-12-31',
  'limit=1000000000&page=1000000000&cursor=999999999999&whole=yes&status=any&due=open&horizon=1e308',
  `text=${'%25'.repeat(300)}&cursor=${'A'.repeat(900)}&measure=${'x'.repeat(900)}`,
  `set=${'9'.repeat(900)}&odds=1e308&question=9999999999&device=c0-d&state=open`,
];

const deep = (levels: number) => `${'{"a":'.repeat(levels)}1${'}'.repeat(levels)}`;
const manyIds = Array.from({ length: 10_000 }, (_, k) => `c${k}`);
const far = {
  date: '9999-12-31',
  castDate: '9999-12-31',
  month: '9999-12',
  from: '0001-01-01',
  to: '9999-12-31',
};
const huge = { value: 1e308, slots: 1e15, weeks: 1e15, allowanceMm: 1e308 };
const bodies: Readonly<Record<string, string>> = {
  'a note of 5 MB': JSON.stringify({ note: 'x'.repeat(5_000_000) }),
  'a note of 200 kB': JSON.stringify({ note: 'left heel red '.repeat(15_000), reason: 'x'.repeat(20_000) }),
  '10,000 ids': JSON.stringify({ ids: manyIds, childIds: manyIds, entries: manyIds, changes: manyIds }),
  'far days, huge numbers': JSON.stringify({ ...far, ...huge, measure: 'foot_length', side: 'left' }),
  '20,000 levels': deep(20_000),
};
const forms: Readonly<Record<string, string>> = {
  'a note of 5 MB': `note=${'x'.repeat(5_000_000)}`,
  'a note of 200 kB': `note=${'left+heel+red+'.repeat(14_000)}&reason=${'x'.repeat(20_000)}`,
  '20,000 fields': Array.from({ length: 20_000 }, (_, k) => `value_${k}=1`).join('&'),
  'far days, huge numbers': new URLSearchParams(
    Object.entries({ ...far, ...huge, measure: 'foot_length' }).map(([k, v]) => [k, String(v)]),
  ).toString(),
};

describe('no address can be asked for work without end', () => {
  let service: TestService;
  beforeAll(async () => {
    service = await testService();
  });
  afterAll(() => service.stop());

  const ask = async (what: string, method: string, url: string, role: Role | null, payload?: string) => {
    const before = process.cpuUsage();
    const began = performance.now();
    const answer = await service.as(role, {
      method: method as 'GET',
      url,
      payload,
      headers: payload
        ? {
            'content-type': url.startsWith('/api/')
              ? 'application/json'
              : 'application/x-www-form-urlencoded',
          }
        : {},
    });
    const { user, system } = process.cpuUsage(before);
    const cpu = (user + system) / 1000;
    const wall = performance.now() - began;
    const said = `${what}: ${answer.statusCode}, ${answer.rawPayload.length} bytes, ${cpu.toFixed(0)} ms of CPU`;
    const wrong =
      answer.statusCode >= 500 || answer.rawPayload.length > MOST_BYTES || Math.min(cpu, wall) > MOST_CPU_MS;
    return wrong ? [said] : [];
  };

  const open = Object.entries(routeRoles).filter(([route]) => !lastly.has(route));

  it.each(open)('%s', async (route, allowed) => {
    const [method, pattern] = route.split(' ');
    const role = allowed === 'public' ? null : roleOf[allowed[0]];
    const path = pathOf(pattern);
    const faults: string[] = [];
    for (const query of addresses)
      faults.push(...(await ask(query.slice(0, 40), method, `${path}?${query}`, role)));
    if (method !== 'GET')
      for (const [what, body] of Object.entries(path.startsWith('/api/') ? bodies : forms))
        faults.push(...(await ask(what, method, path, role, body)));
    expect(faults).toEqual([]);
  });
});
