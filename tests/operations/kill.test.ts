import { expect, it } from 'vitest';
import { kills } from './faults/kills.js';

/** A few; `npm run faults -- kills 200` for many. */
it('kill -9 of server, workers and database: every acknowledged row is there once, every job is done once', async () => {
  const { faults, figures } = await kills(() => {}, 4);
  expect(faults).toEqual([]);
  expect(figures.kills).toEqual({ serve: 1, worker: 2, database: 1 });
  for (const what of ['visitsAcknowledged', 'importsAcknowledged', 'listsAcknowledged'])
    expect(figures[what]).toBeGreaterThan(0);
}, 300_000);
