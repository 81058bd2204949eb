import { describe, expect, it } from 'vitest';
import { randomStream } from '../../src/statistics/random-stream.js';
import { WorkshopQueue } from '../../src/study/simulate/workshop-queue.js';

/**
 * Mean wait in an M/M/c queue: C(c, a)/(c mu - lambda), C Erlang's delay formula (Erlang 1917; as printed in
 * Gross & Harris, Fundamentals of Queueing Theory, section 2.3 - from memory).
 */
function erlangCWait(lambda: number, mu: number, c: number): number {
  const a = lambda / mu;
  let term = 1;
  let sum = 1;
  for (let k = 1; k < c; k++) sum += term *= a / k;
  const last = (term * a) / c / (1 - a / c);
  return last / (sum + last) / (c * mu - lambda);
}

function run(lambda: number, mu: number, benches: number, jobs: number, seed: number) {
  const random = randomStream(seed);
  const exponential = (rate: number) => -Math.log(random.uniform()) / rate;
  const queue = new WorkshopQueue<number>(benches, () => exponential(mu));
  let at = 0;
  for (let k = 0; k < jobs; k++) {
    at += exponential(lambda);
    queue.arrive(k, at);
  }
  return queue.serve(Number.POSITIVE_INFINITY);
}

describe('WorkshopQueue', () => {
  it('the formula itself: C(2, 1) = 1/3, and one bench is M/M/1', () => {
    // a = 1, c = 2: C = (1/2 / (1/2)) / (1 + 1 + 1) = 1/3 (by hand); wait = (1/3)/(2 - 1).
    expect(erlangCWait(1, 1, 2)).toBeCloseTo(1 / 3, 12);
    // M/M/1: rho/(mu - lambda).
    expect(erlangCWait(0.8, 1, 1)).toBeCloseTo(0.8 / 0.2, 12);
  });

  it.each([
    [0.7, 1, 1],
    [1.6, 1, 2],
    [2.4, 0.5, 6],
  ])('waits as Erlang’s formula says: %d jobs a day, each bench %d a day, %d benches', (lambda, mu, c) => {
    const served = run(lambda, mu, c, 100_000, 11);
    const wait = served.reduce((s, j) => s + j.begun - j.arrived, 0) / served.length;
    const expected = erlangCWait(lambda, mu, c);
    expect(Math.abs(wait - expected) / expected).toBeLessThan(0.06);
  });

  it('obeys Little’s law (Little 1961, Operations Research 9:383) over a whole busy history', () => {
    const served = run(1.6, 1, 2, 20_000, 5);
    const end = Math.max(...served.map((j) => j.finished));
    // Work in progress by summing over events, independently of the stays.
    const events = served
      .flatMap((j) => [
        { at: j.arrived, change: 1 },
        { at: j.finished, change: -1 },
      ])
      .sort((a, b) => a.at - b.at);
    let inside = 0;
    let area = 0;
    let last = 0;
    for (const e of events) {
      area += inside * (e.at - last);
      last = e.at;
      inside += e.change;
    }
    const stay = served.reduce((s, j) => s + j.finished - j.arrived, 0) / served.length;
    expect(area / end).toBeCloseTo((served.length / end) * stay, 6);
  });

  it('serves in order of arrival and never more at once than there are benches', () => {
    const served = run(2, 1, 3, 500, 3);
    expect(served.map((j) => j.job)).toEqual(served.map((_, k) => k));
    for (const j of served) {
      const busy = served.filter((o) => o.begun <= j.begun && o.finished > j.begun).length;
      expect(busy).toBeLessThanOrEqual(3);
    }
  });
});
