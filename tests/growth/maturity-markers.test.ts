import { describe, expect, it } from 'vitest';
import { markerEvidence } from '../../src/growth/child/marker-evidence.js';
import { ageOfLogAge, logAge } from '../../src/growth/population/growth-age.js';
import type { Submodel } from '../../src/growth/population/submodel.js';
import { isoDate } from '../../src/records/dates.js';
import type { MaturityMarker } from '../../src/records/records.js';
import { child, dayAt } from './support.js';

/** The age of peak height velocity of the average child here; a tempo of +1 is a year late. */
const PEAK = 12;
const submodel = (sex: 'male' | 'female') =>
  ({
    curves: { sex },
    seeksTempo: true,
    peakVelocityAgeYears: PEAK,
    tempoYears: (tempo: number) => tempo,
    maturity: (x: number, { tempo }: { tempo: number }) => logAge(ageOfLogAge(x) - tempo),
  }) as unknown as Submodel;

const seen = (kind: MaturityMarker['kind'], ageYears: number, value = 0, sdYears: number | null = null) =>
  [
    { id: 'k', childId: 'invented', date: isoDate(dayAt(ageYears)), kind, value, sdYears },
  ] as MaturityMarker[];
const at = (markers: MaturityMarker[], tempo: number, sex: 'male' | 'female' = 'female') =>
  markerEvidence(child([], { sex, markers }))(submodel(sex), { tempo, intensity: 0, logPrior: 0 });

/** The tempo that a marker speaks for most, to a hundredth of a year. */
function likeliest(markers: MaturityMarker[]): number {
  const tempos = Array.from({ length: 1001 }, (_, i) => i / 100 - 5);
  return tempos.reduce((best, t) => (at(markers, t) > at(markers, best) ? t : best));
}
/** Years after the peak at which a stage seen at 13 lies. */
const yearsAfterPeak = (kind: MaturityMarker['kind'], stage: number) =>
  13 - PEAK - likeliest(seen(kind, 13, stage));

describe('what a child’s bones and puberty say of its tempo', () => {
  it('the hand: the peak of growth lies at stage 3, stages 2 and 4 on either side (Sanders 2008, from memory)', () => {
    expect(Math.abs(yearsAfterPeak('hand-stage', 3))).toBeLessThan(0.3);
    expect(yearsAfterPeak('hand-stage', 2)).toBeLessThan(-0.5);
    expect(yearsAfterPeak('hand-stage', 4)).toBeGreaterThan(0.4);
    const years = [2, 3, 4, 5, 6, 7].map((s) => yearsAfterPeak('hand-stage', s));
    expect(years).toEqual(years.toSorted((a, b) => a - b));
  });

  it('the pelvis: stage 1 lies a year after the peak, stage 4 some three (from memory)', () => {
    expect(Math.abs(yearsAfterPeak('pelvis-stage', 1) - 1.1)).toBeLessThan(0.2);
    expect(Math.abs(yearsAfterPeak('pelvis-stage', 4) - 2.9)).toBeLessThan(0.3);
  });

  it('the first and the last stage are open to their side: any time before, any time after', () => {
    for (const [kind, first, last] of [
      ['hand-stage', 1, 8],
      ['pelvis-stage', 0, 5],
    ] as const) {
      const rises = (stage: number) => at(seen(kind, 13, stage), 4) - at(seen(kind, 13, stage), -4);
      expect(rises(first), `${kind} ${first} speaks for late`).toBeGreaterThan(3);
      expect(rises(last), `${kind} ${last} speaks for early`).toBeLessThan(-3);
      // Much later than the stage nothing more is learned.
      expect(at(seen(kind, 13, first), 5) - at(seen(kind, 13, first), 4)).toBeLessThan(0.1);
      expect(at(seen(kind, 13, last), -5) - at(seen(kind, 13, last), -4.5)).toBeLessThan(0.1);
    }
  });

  it('menarche follows the peak by about a year and a quarter (Tanner, from memory), and never in a boy', () => {
    expect(likeliest(seen('menarche', 13))).toBeCloseTo(13 - PEAK - 1.2, 1);
    expect(at(seen('menarche', 13), 0, 'male')).toBeLessThan(-10);
  });

  it('no sign of puberty yet: an even chance 1.2 years before a girl’s peak, 2 before a boy’s (from memory)', () => {
    const even = Math.log(0.5);
    expect(at(seen('pre-pubertal', PEAK - 1.2), 0)).toBeCloseTo(even, 2);
    expect(at(seen('pre-pubertal', PEAK - 2), 0, 'male')).toBeCloseTo(even, 2);
    expect(at(seen('pre-pubertal', PEAK), 2)).toBeGreaterThan(at(seen('pre-pubertal', PEAK), 0));
  });

  it('a bone age ahead of the years means early, by as much, and its own SD counts', () => {
    expect(likeliest(seen('bone-age', 12, 14))).toBeCloseTo(-2, 1);
    expect(likeliest(seen('bone-age', 12, 10.5))).toBeCloseTo(1.5, 1);
    const odds = (sd: number | null) =>
      at(seen('bone-age', 12, 14, sd), -2) - at(seen('bone-age', 12, 14, sd), 0);
    expect(odds(0.3)).toBeGreaterThan(2 * odds(null));
  });

  it('a maturity offset is years from the peak: +1 at 12 means a peak at 11', () => {
    expect(likeliest(seen('maturity-offset', 12, 1))).toBeCloseTo(-1, 1);
  });
});
