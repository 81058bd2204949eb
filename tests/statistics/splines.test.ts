import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bSplineBasis } from '../../src/statistics/b-spline-basis.js';
import { monotoneCubic } from '../../src/statistics/monotone-cubic.js';

test('cubic B-splines as R has them', () => {
  // Source: R 4.2.2, splines::splineDesign(knots = -3:7, x, ord = 4).
  const basis = bSplineBasis(0, 4, 4);
  const expected: [number, number[]][] = [
    [0, [1 / 6, 2 / 3, 1 / 6, 0, 0, 0, 0]],
    [0.3, [0.05716666666666665, 0.5901666666666666, 0.3481666666666667, 0.0045, 0, 0, 0]],
    [1.5, [0, 0.020833333333333332, 0.47916666666666663, 0.47916666666666663, 0.020833333333333332, 0, 0]],
    [3.99, [0, 0, 0, 1.66666666666656e-7, 0.17171616666666656, 0.6665671666666666, 0.16171650000000012]],
  ];
  for (const [x, values] of expected)
    basis(x).forEach((v, i) => {
      expect(v).toBeCloseTo(values[i], 12);
    });
});

test('a monotone cubic passes through its points and never overshoots them', () => {
  const points = fc
    .uniqueArray(fc.tuple(fc.integer({ min: 0, max: 1000 }), fc.double({ min: 0, max: 100, noNaN: true })), {
      minLength: 2,
      maxLength: 12,
      selector: ([x]) => x,
    })
    .map((p) => p.sort((a, b) => a[0] - b[0]));
  fc.assert(
    fc.property(points, fc.double({ min: 0, max: 1, noNaN: true }), (p, share) => {
      const x = p.map(([v]) => v);
      const y = p.map(([, v]) => v);
      const curve = monotoneCubic(x, y);
      p.forEach(([at, v]) => {
        expect(curve(at)).toBeCloseTo(v, 9);
      });
      const at = x[0] + share * (x[x.length - 1] - x[0]);
      const i = Math.max(
        0,
        x.findLastIndex((v) => v <= at),
      );
      const j = Math.min(x.length - 1, i + 1);
      expect(curve(at)).toBeGreaterThanOrEqual(Math.min(y[i], y[j]) - 1e-9);
      expect(curve(at)).toBeLessThanOrEqual(Math.max(y[i], y[j]) + 1e-9);
    }),
  );
});
