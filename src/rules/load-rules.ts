import { z } from 'zod';
import { DoorpostError } from '../errors.js';
import afoWithStraps from './families/afo-with-straps.json' with { type: 'json' };
import articulatedAfo from './families/articulated-afo.json' with { type: 'json' };
import bootsAndBar from './families/boots-and-bar.json' with { type: 'json' };
import cranialOrthosis from './families/cranial-orthosis.json' with { type: 'json' };
import footOrthosis from './families/foot-orthosis.json' with { type: 'json' };
import groundReactionAfo from './families/ground-reaction-afo.json' with { type: 'json' };
import hipAbductionOrthosis from './families/hip-abduction-orthosis.json' with { type: 'json' };
import hkafo from './families/hkafo.json' with { type: 'json' };
import kafo from './families/kafo.json' with { type: 'json' };
import kneeOrthosis from './families/knee-orthosis.json' with { type: 'json' };
import shoeRaise from './families/shoe-raise.json' with { type: 'json' };
import solidAfo from './families/solid-afo.json' with { type: 'json' };
import spinalOrthosis from './families/spinal-orthosis.json' with { type: 'json' };
import supramalleolarOrthosis from './families/supramalleolar-orthosis.json' with { type: 'json' };
import wristHandOrthosis from './families/wrist-hand-orthosis.json' with { type: 'json' };
import { type FamilyRule, type FitRules, familyRule } from './fit-rule.js';

const builtIn: readonly unknown[] = [
  footOrthosis,
  supramalleolarOrthosis,
  solidAfo,
  afoWithStraps,
  articulatedAfo,
  groundReactionAfo,
  kafo,
  hkafo,
  hipAbductionOrthosis,
  spinalOrthosis,
  cranialOrthosis,
  kneeOrthosis,
  wristHandOrthosis,
  bootsAndBar,
  shoeRaise,
];

/** A clinic's own rules: each names a family to change by its `id`, or a new `id` with the family it is `basedOn`. */
const clinicRules = z.array(z.looseObject({ id: z.string(), basedOn: z.string().optional() }));

type Json = Record<string, unknown>;
const isObject = (x: unknown): x is Json => typeof x === 'object' && x !== null && !Array.isArray(x);

/** Fields of `change` over `base`: objects field by field, dimensions by their measure; lists, and a figure with its
 * source, as a whole, so that a changed number cannot keep the old number's source. */
function merge(base: Json, change: Json): Json {
  const result: Json = { ...base };
  for (const [key, value] of Object.entries(change)) {
    const old = base[key];
    if (key === 'dimensions' && Array.isArray(old) && Array.isArray(value)) {
      const changed = new Map(value.filter(isObject).map((d) => [d.measure, d]));
      const kept = old
        .filter(isObject)
        .map((d) => (changed.has(d.measure) ? merge(d, changed.get(d.measure)!) : d));
      const known = new Set(old.filter(isObject).map((d) => d.measure));
      result[key] = [...kept, ...value.filter((d) => !isObject(d) || !known.has(d.measure))];
    } else result[key] = isObject(old) && isObject(value) && !('value' in value) ? merge(old, value) : value;
  }
  return result;
}

function parseRule(raw: unknown, id: string): FamilyRule {
  const parsed = familyRule.safeParse(raw);
  if (parsed.success) return parsed.data;
  const issue = parsed.error.issues[0];
  const field = issue.path.join('.');
  throw new DoorpostError(
    'invalid-rule',
    `Fit rule '${id}', field ${field || '(whole rule)'}: ${issue.message}`,
    {
      field,
      accepted: issue.message,
    },
  );
}

/** Read once: nobody changes a rule, who changes one makes another. */
let shipped: readonly FamilyRule[] | null = null;

/**
 * Fit rules of every family by id: the built-in ones, changed or extended by a clinic's own `extraJson`
 * (an array, already parsed from JSON). A rule that does not pass is refused with its field; none is half taken.
 */
export function loadRules(extraJson: unknown = []): FitRules {
  shipped ??= builtIn.map((raw) => parseRule(raw, (raw as { id: string }).id));
  const rules = new Map(shipped.map((rule) => [rule.id, rule]));
  const extra = clinicRules.safeParse(extraJson);
  if (!extra.success)
    throw new DoorpostError('invalid-rule', 'Own fit rules must be a list of objects, each with an id', {
      accepted: '[{"id": "solid-afo", "dimensions": [...]}] or [{"id": "new-name", "basedOn": "solid-afo"}]',
    });
  for (const { basedOn, ...change } of extra.data) {
    if (basedOn !== undefined && !rules.has(basedOn))
      throw new DoorpostError(
        'invalid-rule',
        `Fit rule '${change.id}' is based on '${basedOn}', which does not exist`,
        {
          field: 'basedOn',
          given: basedOn,
          accepted: [...rules.keys()].join(', '),
        },
      );
    const base = rules.get(basedOn ?? change.id);
    rules.set(change.id, parseRule(base ? merge(base as unknown as Json, change) : change, change.id));
  }
  return rules;
}
