import { beforeAll, describe, expect, it } from 'vitest';
import { demoClinic } from '../../src/demo/demo-clinic.js';
import { roughTables } from '../../src/demo/rough-tables.js';
import { parseCaseload } from '../../src/exchange/parse-caseload.js';
import { decimalAgeYears } from '../../src/records/age.js';
import { familyIds } from '../../src/records/device.js';
import { measures } from '../../src/records/measure.js';

const TODAY = '2026-11-25';
const options = { children: 120, seed: 7, today: TODAY };
let clinic: ReturnType<typeof demoClinic>;
beforeAll(() => {
  clinic = demoClinic(options);
});

describe('the invented clinic', () => {
  it('is the same for the same seed and another for another', () => {
    expect(demoClinic({ ...options, children: 30 })).toEqual(demoClinic({ ...options, children: 30 }));
    const names = (seed: number) =>
      demoClinic({ ...options, children: 5, seed }).caseload.children.map((c) => c.name);
    expect(names(8)).not.toEqual(names(7));
  });

  it('has every family in use, infants and adults, twins and siblings', () => {
    const { children, devices } = clinic.caseload;
    const inUse = new Set(devices.filter((d) => d.status === 'worn').map((d) => d.family));
    expect([...inUse].sort()).toEqual([...familyIds].sort());
    const ages = children.map((c) => decimalAgeYears(c.birthDate, TODAY));
    expect(Math.min(...ages)).toBeLessThan(1);
    expect(Math.max(...ages)).toBeGreaterThan(20);
    const families = children.filter((c) => c.siblingGroup !== null);
    expect(families.length).toBeGreaterThan(5);
  });

  it('stays within what bodies can have and never tells the future', () => {
    const { measurements, devices, events, jobs } = clinic.caseload;
    for (const m of measurements) {
      const [min, max] = measures[m.measure].plausible;
      expect(m.value).toBeGreaterThanOrEqual(min);
      expect(m.value).toBeLessThanOrEqual(max);
    }
    const dates = [
      ...measurements.map((m) => m.date),
      ...devices.flatMap((d) => [d.castDate, d.fittedDate ?? '']),
      ...events.map((e) => e.date),
      ...jobs.flatMap((j) => Object.values(j.stages)),
    ];
    expect(dates.filter((date) => date > TODAY)).toEqual([]);
  });

  // Krebs, ICIB vol 18 no 1 (read as an excerpt): between 4 and 14 years the foot grows about 9 mm a year.
  it('grows feet at about the published 9 mm a year between 4 and 12 years', () => {
    const { children, measurements } = clinic.caseload;
    const slopes = children.flatMap((child) => {
      const feet = measurements
        .filter((m) => m.childId === child.id && m.measure === 'foot_length' && m.side === 'left')
        .map((m) => [decimalAgeYears(child.birthDate, m.date), m.value] as const)
        .filter(([age]) => age >= 4 && age <= 12)
        .sort(([a], [b]) => a - b);
      const [first, last] = [feet[0], feet.at(-1)];
      return first && last && last[0] - first[0] > 1.5 ? [(last[1] - first[1]) / (last[0] - first[0])] : [];
    });
    expect(slopes.length).toBeGreaterThan(15);
    const median = slopes.sort((a, b) => a - b)[Math.floor(slopes.length / 2)];
    expect(median).toBeGreaterThan(7);
    expect(median).toBeLessThan(12);
  });

  // A tenth late is what a clinic with room enough may have (common practice, no source).
  it('casts ahead in its last year, not long ahead, and renews parts', () => {
    const { devices, events } = demoClinic({ children: 240, seed: 20240317, today: TODAY }).caseload;
    const replaced = devices.flatMap((d) => (d.replaces && d.castDate > '2025-11-25' ? [d.replaces] : []));
    const outgrown = new Set(events.filter((e) => e.verdict === 'outgrown').map((e) => e.deviceId));
    const late = replaced.filter((id) => outgrown.has(id)).length / replaced.length;
    expect(late).toBeGreaterThan(0.02);
    expect(late).toBeLessThanOrEqual(0.1);
    const inUse = devices.filter((d) => d.status === 'worn').length;
    expect(replaced.length / inUse).toBeLessThan(1.1);
    expect(events.filter((e) => e.note === 'new foot section').length).toBeGreaterThan(0);
  });

  it('comes back whole through its own rough tables, and only the bad rows are refused', async () => {
    const files = Object.entries(roughTables(clinic.caseload, TODAY)).map(([name, text]) => ({
      name,
      bytes: new TextEncoder().encode(text),
    }));
    const { caseload, refused } = await parseCaseload(files, { today: TODAY });
    expect(caseload).toEqual(clinic.caseload);
    expect(refused).toHaveLength(10);
  });
});
