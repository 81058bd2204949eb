import type { GridPoint } from '../population/submodel.js';
import { densityFrom, logAt, type Place } from './tempo-density.js';
import { type Normal, nextNormal, shares, tempoRule } from './tempo-rule.js';
import type { Candidate, Evidence, Trial } from './trial.js';

/** Points where a trial's tempo and intensity are, and how much the trial has for it, log. */
export interface Sought extends Candidate {
  readonly normal: Normal;
  readonly grid: readonly GridPoint[];
  readonly log: number;
}

/** Where the search begins: prior SD of tempo at a mean intensity. */
const SCAN_TEMPO = [-3.2, -1.6, 0, 1.6, 3.2];
const MOST_STEPS = 3;
const LONGEST_STEP = 1.5;
/** The step is small once it is so short against the posterior's own SD. */
const SHORT = 0.2;
const FARTHEST = 3.6;
/** Ways of growing this much less likely than another of their pool (log) are not worked out: 3 in ten thousand. */
const HOPELESS = 8;
/** Early and late may both be likely; two peaks are told apart if they are this many of both their SDs from each other. */
const APART = 2;

/**
 * Where prior x likelihood of each trial lies. The readings' covariance changes little with tempo, their means much: it
 * is factored at a few tempos and once more near a mode, and the steps between are Gauss and Newton's. A posterior
 * that leans or is narrower than its curvature says is met by its mean and SD in place of its mode.
 * Trials that are out of the question are left out; a later look may bring them back.
 */
export function seekTempo(trials: readonly Trial[], evidence: Evidence): Sought[] {
  const likeliest = new Map<string, { readonly log: number; readonly mode: Normal }>();
  const hopeless = ({ submodel }: Candidate, log: number) =>
    log < (likeliest.get(submodel.pool)?.log ?? Number.NEGATIVE_INFINITY) - HOPELESS;
  const all: Sought[] = [];
  for (const trial of trials) {
    const { pool } = trial.submodel;
    const found: Sought[] = [];
    // The same child on another clock: the search begins where the usual one ended.
    const near = likeliest.get(`${pool}/${trial.sex}`)?.mode;
    const starts = near ? [near] : peaksOf(trial, evidence);
    // Of two peaks each keeps to its own: their common mean would lie where the child cannot be.
    const rounds = starts.length > 1 ? ROUNDS_OF_SEVERAL : MOST_ROUNDS;
    for (const start of starts) {
      const first = climbFrom(start, trial, evidence);
      const mode = (!near && first && climbFrom(first, trial, evidence)) || first;
      if (!mode) continue;
      for (const key of [pool, `${pool}/${trial.sex}`])
        if (mode.log > (likeliest.get(key)?.log ?? Number.NEGATIVE_INFINITY))
          likeliest.set(key, { log: mode.log, mode });
      if (hopeless(trial, mode.log)) continue;
      const laid = matchMoments(mode, trial, evidence, rounds);
      const { normal } = laid;
      const apart = ({ normal: { tempo, a } }: Sought) =>
        Math.abs(tempo - normal.tempo) > APART * (a + normal.a);
      if (found.every(apart))
        found.push({ sex: trial.sex, submodel: trial.submodel, ...laid, log: mode.log });
    }
    all.push(...found);
  }
  return all.filter((s) => !hopeless(s, s.log));
}

/** Tempos of the scan that are likelier than their neighbours, the likeliest first. */
function peaksOf(trial: Trial, evidence: Evidence): Place[] {
  const scanned = SCAN_TEMPO.map((tempo) => {
    const at = { tempo, intensity: 0 };
    return { ...at, log: logAt(trial, evidence, at) - tempo ** 2 / 2 };
  });
  const top = Math.max(...scanned.map((s) => s.log));
  return scanned
    .filter(({ log }, k) => {
      const [before, after] = [scanned[k - 1], scanned[k + 1]];
      return log > top - HOPELESS && !(before?.log > log) && !(after?.log > log);
    })
    .toSorted((a, b) => b.log - a.log);
}

/** Points are laid, weighed, and laid anew where their weights show the posterior to be, until they agree. */
function matchMoments(
  mode: Normal,
  trial: Trial,
  evidence: Evidence,
  rounds: number,
): Pick<Sought, 'normal' | 'grid'> {
  let normal = mode;
  for (let round = 1; ; round++) {
    const points = tempoRule(normal);
    const share = shares(points.map((p) => logAt(trial, evidence, p) + p.logPrior));
    const next = nextNormal(normal, points, share);
    if (!next || round === rounds) return { normal, grid: points.filter((_, k) => !(share[k] < LEAST_SAID)) };
    normal = next;
  }
}
const MOST_ROUNDS = 5;
const ROUNDS_OF_SEVERAL = 1;
/** Points that stand for less of the posterior than this are left out. */
const LEAST_SAID = 5e-4;

/** Newton's steps with the expected curvature. */
function climbFrom(start: Place, trial: Trial, evidence: Evidence) {
  const density = densityFrom(trial, evidence, start);
  if (!density) return null;
  let at = start;
  let best = density.at(at);
  for (let step = 1; ; step++) {
    const { tt, ti, ii, t, i } = density.slopes(at);
    const det = tt * ii - ti * ti;
    const a = Math.sqrt(ii / det);
    const b = -ti / det / a;
    const c = 1 / Math.sqrt(ii);
    const dt = (ii * t - ti * i) / det;
    const di = (tt * i - ti * t) / det;
    const shorten = Math.min(1, LONGEST_STEP / Math.hypot(dt, di));
    const clamp = (v: number) => Math.min(FARTHEST, Math.max(-FARTHEST, v));
    const next = { tempo: clamp(at.tempo + dt * shorten), intensity: clamp(at.intensity + di * shorten) };
    const value = density.at(next);
    const better = value > best;
    if (better) {
      at = next;
      best = value;
    }
    if (!better || step === MOST_STEPS || Math.hypot(dt / a, (di - (b / a) * dt) / c) < SHORT)
      return { tempo: at.tempo, intensity: at.intensity, a, b, c, log: best + Math.log(a * c) };
  }
}
