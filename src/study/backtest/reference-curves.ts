import { loadReferenceSource } from '../../reference/load-reference-source.js';
import { loadReferences } from '../../reference/reference.js';
import { type References, referenceKey } from '../../reference/reference-curve.js';
import type { BaselineCurves, SizeCurve } from './baselines.js';

/**
 * The curves a forecast 'on the centile' follows. Published: leg length UK 1990 (Dangour 2002, S constant) and
 * stature CDC 2000. Own: the working reference doorpost ships.
 */
export function referenceSizeCurves(): Pick<BaselineCurves, 'published' | 'own'> {
  const stature = loadReferenceSource('cdc-2000');
  const legLength = loadReferenceSource('uk-1990');
  return {
    published: sizeCurve((measure) => (measure === 'leg_length' ? legLength : stature)),
    own: sizeCurve(() => loadReferences()),
  };
}

/** The table's first and last values are held outside its ages. */
function sizeCurve(of: (measure: string) => References): SizeCurve {
  return (measure, sex, ageYears) => {
    const curve = of(measure).curves.get(referenceKey(measure, sex));
    if (curve === undefined) throw new Error(`${of(measure).source} has no ${measure}`);
    return curve.at(Math.min(Math.max(ageYears, curve.fromYears), curve.toYears));
  };
}
