import type { Side } from '../records/measure.js';
import type { ConditionId } from '../records/records.js';

/** One kind of child in the invented clinic. */
export interface Pattern {
  /** How many of a hundred children. */
  readonly share: number;
  readonly condition: ConditionId;
  /** Age today, years. */
  readonly ages: readonly [from: number, to: number];
  /** Each inner list is one way such a child is equipped. */
  readonly devices: readonly (readonly Worn[])[];
  readonly affectedSide?: 'one' | 'both' | 'none';
  readonly insensateSkin?: boolean;
  readonly latexAlert?: boolean;
  readonly walks?: boolean;
  readonly palliative?: number;
  readonly girls?: number;
}
/** 'affected' and 'other' are settled by the child's affected side. */
export interface Worn {
  readonly family: string;
  readonly side: Side | 'both' | 'affected' | 'other';
}

const pair = (family: string): Worn[] => [
  { family, side: 'left' },
  { family, side: 'right' },
];
const one = (family: string, side: Worn['side']): Worn[] => [{ family, side }];

const pattern = (
  share: number,
  condition: ConditionId,
  ages: Pattern['ages'],
  devices: Pattern['devices'],
  more: Omit<Pattern, 'share' | 'condition' | 'ages' | 'devices'> = {},
): Pattern => ({ share, condition, ages, devices, ...more });

/**
 * Who comes to the clinic. Shares are invented in the manner of a general paediatric orthotics caseload; the first
 * rows cover every family, so that even a small clinic shows them.
 */
export const scenario: readonly Pattern[] = [
  pattern(11, 'cerebral-palsy', [2.5, 15], [pair('solid-afo')], { affectedSide: 'both' }),
  pattern(9, 'cerebral-palsy', [3, 14], [pair('articulated-afo')], { affectedSide: 'both' }),
  pattern(14, 'flexible-flat-foot', [3, 15], [pair('foot-orthosis')]),
  pattern(9, 'hypotonia', [1.4, 5], [pair('supramalleolar-orthosis')]),
  pattern(5, 'myelomeningocele-high', [2.5, 13], [pair('kafo'), pair('kafo'), one('hkafo', 'both')], {
    affectedSide: 'both',
    insensateSkin: true,
    latexAlert: true,
    walks: false,
  }),
  pattern(2, 'arthrogryposis', [2.5, 12], [one('hkafo', 'both')], { affectedSide: 'both' }),
  pattern(8, 'idiopathic-scoliosis', [10.5, 15.8], [one('spinal-orthosis', 'none')], { girls: 0.85 }),
  pattern(7, 'positional-head-asymmetry', [0.42, 0.95], [one('cranial-orthosis', 'none')]),
  pattern(3, 'hip-dysplasia', [0.5, 2.2], [one('hip-abduction-orthosis', 'both')], { girls: 0.75 }),
  pattern(3, 'cerebral-palsy', [8, 16], [pair('ground-reaction-afo')], { affectedSide: 'both' }),
  pattern(2, 'muscular-dystrophy', [4.5, 13], [pair('afo-with-straps')], {
    affectedSide: 'both',
    girls: 0.05,
  }),
  pattern(
    13,
    'hemiplegia',
    [2, 15],
    [
      one('solid-afo', 'affected'),
      one('articulated-afo', 'affected'),
      [...one('articulated-afo', 'affected'), ...one('foot-orthosis', 'other')],
    ],
    { affectedSide: 'one' },
  ),
  pattern(5, 'myelomeningocele-low', [2.5, 15], [pair('solid-afo'), pair('ground-reaction-afo')], {
    affectedSide: 'both',
    insensateSkin: true,
    latexAlert: true,
  }),
  pattern(4, 'down-syndrome', [1.5, 8], [pair('supramalleolar-orthosis'), pair('foot-orthosis')]),
  pattern(3, 'clubfoot', [2, 10], [one('articulated-afo', 'affected'), one('foot-orthosis', 'affected')], {
    affectedSide: 'one',
  }),
  pattern(2, 'spinal-muscular-atrophy', [2.5, 12], [pair('kafo'), pair('solid-afo')], {
    affectedSide: 'both',
    walks: false,
    palliative: 0.5,
  }),
  pattern(2, 'neuromuscular-scoliosis', [7, 15], [one('spinal-orthosis', 'none')], { walks: false }),
  pattern(2, 'leg-length-difference', [5, 14], [one('foot-orthosis', 'affected')], { affectedSide: 'one' }),
  pattern(1, 'craniosynostosis-operated', [0.5, 0.95], [one('cranial-orthosis', 'none')]),
  pattern(2, 'other', [4, 16.5], [one('kafo', 'affected'), pair('foot-orthosis')], { affectedSide: 'one' }),
  pattern(2, 'cerebral-palsy', [16.2, 19.5], [pair('solid-afo')], { affectedSide: 'both' }),
  pattern(3, 'cerebral-palsy', [21, 38], [pair('solid-afo'), pair('foot-orthosis')], {
    affectedSide: 'both',
  }),
  pattern(2, 'clubfoot', [0.5, 3.8], [one('boots-and-bar', 'both')]),
  pattern(1, 'hemiplegia', [3, 13], [one('wrist-hand-orthosis', 'affected')], { affectedSide: 'one' }),
  pattern(1, 'cerebral-palsy', [4, 14], [pair('knee-orthosis')], { affectedSide: 'both' }),
  pattern(1, 'leg-length-difference', [5, 14], [one('shoe-raise', 'affected')], { affectedSide: 'one' }),
];

/** The pattern of each of `children`, in proportion to the shares, every pattern once before any comes twice. */
export function patternsOf(children: number): Pattern[] {
  const given = scenario.map(() => 0);
  return Array.from({ length: children }, () => {
    const first = given.indexOf(0);
    const used = scenario.map((pattern, i) => (given[i] + 0.5) / pattern.share);
    const next = first >= 0 ? first : used.indexOf(Math.min(...used));
    given[next]++;
    return scenario[next];
  });
}
