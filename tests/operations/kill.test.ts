import { describe, expect, it } from 'vitest';
import { killMany } from './kill-harness.js';

/** 50 in CI; fewer while working. `node --import tsx tests/operations/kill-many.ts 200` for more. */
const KILLS = process.env.CI ? 50 : 8;

describe('kill -9 of the server and of workers, during visits, imports and recall runs', () => {
  it(
    `${KILLS} times: every acknowledged row is there once, no import is half, every job is done once`,
    async () => {
      const report = await killMany(KILLS);
      expect(report.faults).toEqual([]);
      expect(report.kills.server).toBeGreaterThan(0);
      expect(report.kills.worker).toBeGreaterThan(0);
      expect(report.visitsAcknowledged).toBeGreaterThan(KILLS);
      expect(report.importsAcknowledged).toBeGreaterThan(0);
      expect(report.recallRunsAcknowledged).toBeGreaterThan(0);
    },
    15 * 60_000,
  );
});
