import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { DoorpostError } from '../../errors.js';
import { isHeadMeasure } from '../../records/measure.js';
import { curveOf, lmsAt, loadReferences, zScore } from '../../reference/reference.js';
import type { References } from '../../reference/reference-curve.js';
import { ageOfLogAge, logAge } from './growth-age.js';
import type { GrowthModel } from './growth-model.js';
import { isLogMeasure } from './growth-scale.js';
import { type GrowthParameters, growthParameters } from './parameters.js';
import { quadratureGrid } from './quadrature-grid.js';
import { referenceCurves } from './reference-curves.js';
import type { SexCurves } from './sex-curves.js';
import type { Submodel } from './submodel.js';
import { tempoPopulation } from './tempo-population.js';
import { tempoSubmodel } from './tempo-submodel.js';
import { zScoreSubmodel } from './z-score-submodel.js';

const shipped = fileURLToPath(new URL('../../../models/', import.meta.url));
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
    return { curves, submodels: submodelsOf(curves, p) };
  });
  return {
    name: p.name,
    version: p.version,
    parameters: p,
    measures: p.measures,
    index: new Map(p.measures.map((id, d) => [id, d])),
    curves: { male: male.curves, female: female.curves },
    submodels: { male: male.submodels, female: female.submodels },
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

function submodelsOf(curves: SexCurves, p: GrowthParameters): Submodel[] {
  const { sex } = curves;
  const share = (x: number) => between(p.zScoreShare[sex], ageOfLogAge(x));
  const tempo = {
    centre: logAge(p.peakVelocityAgeYears[sex]),
    tempoSd: p.longitudinal.tempoSd[sex],
    intensitySd: p.longitudinal.intensitySd[sex],
    warpFrom: logAge(p.longitudinal.warpFromYears),
    warpFull: logAge(p.longitudinal.warpFullYears),
  };
  const softTissue = p.measures.map(isLogMeasure);
  const population = tempoPopulation(
    curves,
    p.measures,
    softTissue,
    p.correlation,
    p.longitudinal,
    tempo,
    p.crossSectional,
    p.tempo.residualSharing,
  );
  const grid = quadratureGrid(p.tempo.tempoPoints, p.tempo.intensityPoints);
  const settings = { ...p.tempo, residualYears: p.longitudinal.residualYears };
  return [
    zScoreSubmodel(curves, p.correlation, p.measures.map(isHeadMeasure), p.zScore, (x) => Math.log(share(x))),
    tempoSubmodel(curves, p.correlation, population, p.longitudinal.knots, tempo, grid, settings, (x) =>
      Math.log(1 - share(x)),
    ),
  ];
}

function between(table: readonly { ageYears: number; share: number }[], age: number): number {
  const after = table.findIndex((t) => t.ageYears >= age);
  if (after <= 0) return after === 0 ? table[0].share : table[table.length - 1].share;
  const [a, b] = [table[after - 1], table[after]];
  return a.share + ((b.share - a.share) * (age - a.ageYears)) / (b.ageYears - a.ageYears);
}
