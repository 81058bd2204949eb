import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { DoorpostError } from '../errors.js';
import { curveOf, lmsAt, loadReferences, zScore } from '../reference/reference.js';
import type { References } from '../reference/reference-curve.js';
import type { GrowthModel } from './growth-model.js';
import { type GrowthParameters, growthParameters } from './parameters.js';
import { referenceCurves } from './reference-curves.js';
import { zScoreMember } from './z-score-member.js';

const shipped = fileURLToPath(new URL('../../models/', import.meta.url));
const cached = new Map<string, GrowthModel>();

/** Names of the models in models/. */
export function growthModelNames(folder = shipped): string[] {
  return readdirSync(folder)
    .filter((name) => existsSync(`${folder}/${name}/parameters.json`))
    .sort();
}

/** A shipped or fitted model by name; read once, then kept. */
export function loadGrowthModel(name = 'default', folder = shipped): GrowthModel {
  const key = `${folder}/${name}`;
  const known = cached.get(key);
  if (known) return known;
  const path = `${key}/parameters.json`;
  if (!/^[\w.-]+$/.test(name) || !existsSync(path))
    throw new DoorpostError('model-missing', `there is no growth model named '${name}'`, {
      given: name,
      accepted: growthModelNames(folder).join(', '),
    });
  const model = growthModel(growthParameters.parse(JSON.parse(readFileSync(path, 'utf8'))), loadReferences());
  cached.set(key, model);
  return model;
}

/** Parameters and references made ready to fit children with. */
export function growthModel(all: GrowthParameters, refs: References): GrowthModel {
  const p = withReferencesOnly(all, refs);
  const sexes = ['male', 'female'] as const;
  const [male, female] = sexes.map((sex) => {
    const curves = referenceCurves(refs, sex, p);
    return { curves, members: [zScoreMember(curves, p.correlation, p.zScore, () => 0)] };
  });
  return {
    name: p.name,
    version: p.version,
    measures: p.measures,
    index: new Map(p.measures.map((id, d) => [id, d])),
    curves: { male: male.curves, female: female.curves },
    members: { male: male.members, female: female.members },
    zScore(sex, measure, ageYears, value) {
      const lms = lmsAt(refs, measure, sex, ageYears);
      return lms && zScore(lms, value);
    },
  };
}

/** Leaves out measures the references lack. */
function withReferencesOnly(p: GrowthParameters, refs: References): GrowthParameters {
  const kept = p.measures.flatMap((id, d) =>
    curveOf(refs, id, 'male') && curveOf(refs, id, 'female') ? [d] : [],
  );
  return {
    ...p,
    measures: kept.map((d) => p.measures[d]),
    correlation: kept.map((d) => kept.map((e) => p.correlation[d][e])),
  };
}
