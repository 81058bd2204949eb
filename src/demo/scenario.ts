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

/**
 * Who comes to the clinic. Shares are invented in the manner of a general paediatric orthotics caseload; the first
 * rows cover every family, so that even a small clinic shows them.
 */
export const scenario: readonly Pattern[] = [
  {
    share: 11,
    condition: 'cerebral-palsy',
    ages: [2.5, 15],
    devices: [pair('solid-afo')],
    affectedSide: 'both',
  },
  {
    share: 9,
    condition: 'cerebral-palsy',
    ages: [3, 14],
    devices: [pair('articulated-afo')],
    affectedSide: 'both',
  },
  { share: 14, condition: 'flexible-flat-foot', ages: [3, 15], devices: [pair('foot-orthosis')] },
  { share: 9, condition: 'hypotonia', ages: [1.4, 5], devices: [pair('supramalleolar-orthosis')] },
  {
    share: 5,
    condition: 'myelomeningocele-high',
    ages: [2.5, 13],
    devices: [pair('kafo'), pair('kafo'), one('hkafo', 'both')],
    affectedSide: 'both',
    insensateSkin: true,
    latexAlert: true,
    walks: false,
  },
  {
    share: 2,
    condition: 'arthrogryposis',
    ages: [2.5, 12],
    devices: [one('hkafo', 'both')],
    affectedSide: 'both',
  },
  {
    share: 8,
    condition: 'idiopathic-scoliosis',
    ages: [10.5, 15.8],
    devices: [one('spinal-orthosis', 'none')],
    girls: 0.85,
  },
  {
    share: 7,
    condition: 'positional-head-asymmetry',
    ages: [0.42, 0.95],
    devices: [one('cranial-orthosis', 'none')],
  },
  {
    share: 3,
    condition: 'hip-dysplasia',
    ages: [0.5, 2.2],
    devices: [one('hip-abduction-orthosis', 'both')],
    girls: 0.75,
  },
  {
    share: 3,
    condition: 'cerebral-palsy',
    ages: [8, 16],
    devices: [pair('ground-reaction-afo')],
    affectedSide: 'both',
  },
  {
    share: 2,
    condition: 'muscular-dystrophy',
    ages: [4.5, 13],
    devices: [pair('afo-with-straps')],
    affectedSide: 'both',
    girls: 0.05,
  },
  {
    share: 13,
    condition: 'hemiplegia',
    ages: [2, 15],
    devices: [
      one('solid-afo', 'affected'),
      one('articulated-afo', 'affected'),
      [...one('articulated-afo', 'affected'), ...one('foot-orthosis', 'other')],
    ],
    affectedSide: 'one',
  },
  {
    share: 5,
    condition: 'myelomeningocele-low',
    ages: [2.5, 15],
    devices: [pair('solid-afo'), pair('ground-reaction-afo')],
    affectedSide: 'both',
    insensateSkin: true,
    latexAlert: true,
  },
  {
    share: 4,
    condition: 'down-syndrome',
    ages: [1.5, 8],
    devices: [pair('supramalleolar-orthosis'), pair('foot-orthosis')],
  },
  {
    share: 3,
    condition: 'clubfoot',
    ages: [2, 10],
    devices: [one('articulated-afo', 'affected'), one('foot-orthosis', 'affected')],
    affectedSide: 'one',
  },
  {
    share: 2,
    condition: 'spinal-muscular-atrophy',
    ages: [2.5, 12],
    devices: [pair('kafo'), pair('solid-afo')],
    affectedSide: 'both',
    walks: false,
    palliative: 0.5,
  },
  {
    share: 2,
    condition: 'neuromuscular-scoliosis',
    ages: [7, 15],
    devices: [one('spinal-orthosis', 'none')],
    walks: false,
  },
  {
    share: 2,
    condition: 'leg-length-difference',
    ages: [5, 14],
    devices: [one('foot-orthosis', 'affected')],
    affectedSide: 'one',
  },
  {
    share: 1,
    condition: 'craniosynostosis-operated',
    ages: [0.5, 0.95],
    devices: [one('cranial-orthosis', 'none')],
  },
  {
    share: 2,
    condition: 'other',
    ages: [4, 16.5],
    devices: [one('kafo', 'affected'), pair('foot-orthosis')],
    affectedSide: 'one',
  },
  {
    share: 2,
    condition: 'cerebral-palsy',
    ages: [16.2, 19.5],
    devices: [pair('solid-afo')],
    affectedSide: 'both',
  },
  {
    share: 3,
    condition: 'cerebral-palsy',
    ages: [21, 38],
    devices: [pair('solid-afo'), pair('foot-orthosis')],
    affectedSide: 'both',
  },
  { share: 2, condition: 'clubfoot', ages: [0.5, 3.8], devices: [one('boots-and-bar', 'both')] },
  {
    share: 1,
    condition: 'hemiplegia',
    ages: [3, 13],
    devices: [one('wrist-hand-orthosis', 'affected')],
    affectedSide: 'one',
  },
  {
    share: 1,
    condition: 'cerebral-palsy',
    ages: [4, 14],
    devices: [pair('knee-orthosis')],
    affectedSide: 'both',
  },
  {
    share: 1,
    condition: 'leg-length-difference',
    ages: [5, 14],
    devices: [one('shoe-raise', 'affected')],
    affectedSide: 'one',
  },
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
