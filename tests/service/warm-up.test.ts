import pg from 'pg';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { warmUp } from '../../src/commands/warm-up.js';
import { type TestService, testService } from './test-service.js';

let service: TestService;
let database: pg.Client;
beforeAll(async () => {
  service = await testService({}, 3);
  database = new pg.Client(service.database.url);
  await database.connect();
});
afterAll(async () => {
  await database.end();
  await service.stop();
});

test('pages made before the service opens leave nothing behind: no look, no sign-in, no forecast', async () => {
  const kept = async () => {
    const { rows } = await database.query(
      `select (select count(*)::int from audit) as looks, (select count(*)::int from access_tokens) as tokens,
        (select count(*)::int from assessments) as forecasts, (select count(*)::int from secrets) as secrets`,
    );
    return rows[0];
  };
  const numbered = async () =>
    Number((await database.query(`select last_value from audit_seq_seq`)).rows[0].last_value);
  const [before, number] = [await kept(), await numbered()];
  await warmUp(service.deps);
  expect(await kept()).toEqual(before);
  // They were made all the same: a number of the access log is not given twice, also where its row was taken back.
  expect(await numbered()).toBeGreaterThanOrEqual(number + 6);
});
