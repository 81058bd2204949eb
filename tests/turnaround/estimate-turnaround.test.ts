import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { turnaroundsOf } from '../../src/clinic/clinic-list.js';
import { addDaysIso, daysBetween } from '../../src/records/dates.js';
import type { WorkshopJob } from '../../src/records/device.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { randomStream } from '../../src/statistics/random-stream.js';
import { estimateTurnaround } from '../../src/turnaround/estimate-turnaround.js';
import { expectedFitting, stageDurations } from '../../src/turnaround/expected-fitting.js';
import { workshopLoad } from '../../src/turnaround/jobs-in-workshop.js';
import { fitLogNormalDurations } from '../../src/turnaround/log-normal-durations.js';

const today = '2026-06-01';
const job = (id: number, castDaysAgo: number, days: number | null, family = 'solid-afo'): WorkshopJob => ({
  id: `j${id}`,
  deviceId: `d${id}`,
  family,
  stages: {
    cast: addDaysIso(today, -castDaysAgo),
    ...(days === null ? {} : { fit: addDaysIso(today, days - castDaysAgo) }),
  },
  status: days === null ? 'in-progress' : 'fitted',
});

describe('estimateTurnaround', () => {
  // Defaults: common practice, no source.
  it.each([
    ['solid-afo', 21],
    ['foot-orthosis', 14],
    ['kafo', 42],
    ['hkafo', 42],
    ['spinal-orthosis', 14],
    ['cranial-orthosis', 10],
  ])('starts from the default of %s: %d days', (family, days) => {
    expect(estimateTurnaround([], family, today)).toMatchObject({
      p50Days: days,
      basis: 'default',
      jobsUsed: 0,
    });
  });

  it('starts from the days of a family of the clinic’s own', () => {
    const own = [{ id: 'day-afo', basedOn: 'kafo', turnaroundDays: { value: 70, source: 'our workshop' } }];
    expect(estimateTurnaround([], 'day-afo', today, undefined, loadRules(own)).p50Days).toBe(70);
    expect(turnaroundsOf([], today, loadRules(own))('day-afo').p50Days).toBe(70);
  });

  it('moves from the default to the clinic as its history grows', () => {
    const slow = (n: number) =>
      estimateTurnaround(
        Array.from({ length: n }, (_, i) => job(i, 60 + i * 5, 42)),
        'solid-afo',
        today,
        8,
      );
    const medians = [0, 2, 8, 30, 120].map((n) => slow(n).p50Days);
    expect(medians).toEqual([...medians].sort((a, b) => a - b));
    expect(medians[0]).toBe(21);
    // Shrinkage by hand: 8 jobs against a prior worth 8 meet half way on the log scale: sqrt(21 * 42) = 29.7 days.
    expect(medians[2]).toBeGreaterThan(27);
    expect(medians[2]).toBeLessThan(33);
    expect(Math.abs(medians[4] - 42)).toBeLessThanOrEqual(3);
  });

  it('learns neither from jobs of another family nor from those of more than three years ago', () => {
    const slow = (family: string, castDaysAgo: number) =>
      estimateTurnaround(
        Array.from({ length: 30 }, (_, i) => job(i, castDaysAgo + i, 90, family)),
        'solid-afo',
        today,
        0,
      );
    expect(slow('solid-afo', 200)).toMatchObject({ basis: 'clinic-history', jobsUsed: 30 });
    const unlearned = { basis: 'default', jobsUsed: 0, p50Days: 21 };
    expect(slow('kafo', 200)).toMatchObject(unlearned);
    expect(slow('solid-afo', 3 * 365 + 1)).toMatchObject(unlearned);
  });

  it('does not take the slow jobs still running for quick ones', () => {
    // A workshop that has slowed from 20 days to about 60: the quick half is fitted, the slow half still there.
    const jobs = Array.from({ length: 40 }, (_, i) => (i % 2 ? job(i, 50, 20) : job(i, 50, null)));
    const finishedOnly = jobs.filter((j) => j.status === 'fitted');
    expect(estimateTurnaround(jobs, 'solid-afo', today, 20).p80Days).toBeGreaterThan(
      estimateTurnaround(finishedOnly, 'solid-afo', today, 20).p80Days + 15,
    );
  });

  it('uses only what was known on the day', () => {
    const jobs = [job(1, 100, 30), job(2, 40, 25), job(3, -10, 5)];
    const then = addDaysIso(today, -50);
    const known = [job(1, 100, 30)];
    expect(estimateTurnaround(jobs, 'solid-afo', then)).toEqual(estimateTurnaround(known, 'solid-afo', then));
    // A fitting that is only planned says no more than that the job is still running; a cast to come says nothing.
    const busy = Array.from({ length: 20 }, (_, i) => job(10 + i, 200 + 3 * i, 20 + i));
    const planned = [...busy, job(4, 40, 60), job(5, -5, null)];
    const running = [...busy, job(4, 40, null)];
    expect(estimateTurnaround(planned, 'solid-afo', today, 5)).toEqual(
      estimateTurnaround(running, 'solid-afo', today, 5),
    );
  });

  it('plans for the 80th percentile', () => {
    // By hand: median 21 days, SD of the log 0.25 x sqrt(1 + 1/8) = 0.265: 21 x exp(0.8416 x 0.265) = 26.2 days.
    const { p50Days, p80Days, samplesDays } = estimateTurnaround([], 'solid-afo', today);
    expect([p50Days, p80Days]).toEqual([21, 26]);
    expect(samplesDays.at(-1)).toBeGreaterThan(p80Days);
  });

  it('is longer when the workshop is fuller, where history says so', () => {
    // Turnaround proportional to the work found on arrival: cast in bursts, each served one a day.
    const jobs: WorkshopJob[] = [];
    for (let burst = 0; burst < 20; burst++) {
      for (let k = 0; k < 12; k++) jobs.push(job(burst * 12 + k, 900 - burst * 40 - 0.5 * k, 8 + 2 * k));
    }
    const whole = jobs.map((j) => ({
      ...j,
      stages: { cast: j.stages.cast!.slice(0, 10), fit: j.stages.fit! },
    }));
    const at = (n: number) => estimateTurnaround(whole, 'solid-afo', today, n).p50Days;
    expect(at(12)).toBeGreaterThan(at(1) + 2);
  });

  // Little's law, L = lambda W (Little 1961, Operations Research 9:383): exact over a window that starts and ends empty.
  it('counts work in progress so that Little’s law holds', () => {
    const random = randomStream(7);
    const jobs: WorkshopJob[] = Array.from({ length: 200 }, (_, i) =>
      job(i, 700 - Math.floor(random.uniform() * 600), 1 + Math.floor(random.uniform() * 60)),
    );
    const loadOn = workshopLoad(jobs);
    let jobDays = 0;
    for (let d = -800; d <= 200; d++) jobDays += loadOn(addDaysIso(today, d));
    const meanStay = jobs.reduce((s, j) => s + daysBetween(j.stages.cast!, j.stages.fit!), 0) / jobs.length;
    const window = 1001;
    expect(jobDays / window).toBeCloseTo((jobs.length / window) * meanStay, 9);
  });
});

describe('fitLogNormalDurations', () => {
  it('recovers a log-normal from censored draws of it', () => {
    const random = randomStream(3);
    const truth = { location: Math.log(25), scale: 0.4 };
    const durations = Array.from({ length: 3000 }, () => {
      const days = Math.exp(truth.location + truth.scale * random.normal());
      const seen = 10 + 40 * random.uniform();
      return { days: Math.min(days, seen), running: days > seen, load: 0 };
    });
    const model = fitLogNormalDurations(durations, { medianDays: 21, logSd: 0.25, weight: 8 });
    expect(model.location).toBeCloseTo(truth.location, 1);
    expect(model.scale).toBeCloseTo(truth.scale, 1);
  });

  it('stays finite and ordered whatever it is given', () => {
    const duration = fc.record({
      days: fc.integer({ min: 0, max: 2000 }),
      running: fc.boolean(),
      load: fc.double({ min: -3, max: 3, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(duration, { maxLength: 40 }), (durations) => {
        const model = fitLogNormalDurations(durations, { medianDays: 21, logSd: 0.25, weight: 8 });
        expect(Number.isFinite(model.location)).toBe(true);
        expect(model.scale).toBeGreaterThan(0);
      }),
      { numRuns: 200, seed: 2 },
    );
  });
});

describe('expectedFitting', () => {
  const shipped = loadRules();
  const running = (stages: WorkshopJob['stages']): WorkshopJob => ({
    id: 'now',
    deviceId: 'x',
    family: 'solid-afo',
    status: 'in-progress',
    stages,
  });

  it('comes nearer with every stage done', () => {
    const cast = addDaysIso(today, -8);
    const dates = [
      running({ cast }),
      running({ cast, rectify: addDaysIso(today, -1) }),
      running({ cast, rectify: addDaysIso(today, -3), assemble: today }),
      running({ cast, finish: today }),
    ].map((j) => expectedFitting(j, stageDurations([j], today), shipped)!);
    expect(dates.map((d) => d.stage)).toEqual(['cast', 'rectify', 'assemble', 'finish']);
    const medians = dates.map(({ samplesDays }) => samplesDays[Math.floor(samplesDays.length / 2)]);
    expect(medians).toEqual(medians.toSorted((a, b) => b - a));
    for (const { samplesDays } of dates) {
      expect(samplesDays).toEqual(samplesDays.toSorted((a, b) => a - b));
      expect(samplesDays[0]).toBeGreaterThanOrEqual(0);
    }
  });

  it('is learned from the other jobs, not from the one asked about', () => {
    const asked = running({ cast: addDaysIso(today, -90) });
    const others = [job(1, 60, 20), job(2, 50, 25), job(3, 30, null)];
    expect(expectedFitting(asked, stageDurations([...others, asked], today), shipped)).toEqual(
      expectedFitting(asked, stageDurations(others, today), shipped),
    );
  });

  it('begins from the days that the clinic itself gives the family', () => {
    const asked = running({ cast: today });
    const rules = new Map(shipped);
    const solid = rules.get('solid-afo')!;
    rules.set('solid-afo', { ...solid, turnaroundDays: { ...solid.turnaroundDays, value: 60 } });
    const medianOf = (given: typeof shipped) =>
      expectedFitting(asked, stageDurations([asked], today), given)!.samplesDays[50];
    expect(medianOf(rules) / medianOf(shipped)).toBeCloseTo(60 / solid.turnaroundDays.value, 0);
  });

  it('is never in the past, however long the job has waited, and null once fitted', () => {
    const late = running({ cast: addDaysIso(today, -300) });
    const fitting = expectedFitting(late, stageDurations([late], today), shipped)!;
    expect(fitting.samplesDays[0]).toBeGreaterThanOrEqual(0);
    expect(fitting.samplesDays.at(-1)).toBeGreaterThan(0);
    expect(expectedFitting(job(1, 30, 20), stageDurations([], today), shipped)).toBeNull();
  });
});
