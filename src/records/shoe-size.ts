/**
 * Shoe sizes as the foot length they are made for, in mm, which is Mondopoint. The scales are those of ISO 19407 from
 * memory, not read: a European size is 2/3 cm of last and the last 15 mm longer than the foot; a British size is 1/3 inch,
 * children's and adults' 13 apart; an American one is a third of a size below the British. American women's sizes are
 * not told apart from the others.
 */
export type ShoeSystem = 'EU' | 'UK' | 'US' | 'Mondopoint';

const EU_STEP_MM = 20 / 3;
const INCH_STEP_MM = 25.4 / 3;
const LAST_BEYOND_FOOT_MM = 15;
/** Size 0 lies this many steps from a foot of no length. */
const ZERO = { UK: { child: 10, adult: 23 }, US: { child: 29 / 3, adult: 68 / 3 } } as const;
const LARGEST_CHILD = 13.5;

/** One size up or down, mm: what a shoe leaves open of the foot in it. */
export const shoeStepMm = (system: ShoeSystem): number =>
  system === 'EU' ? EU_STEP_MM : system === 'Mondopoint' ? 5 : INCH_STEP_MM;

/** Foot lengths a size can be made for: two where the children's and the adults' scale both have it. shoeFootLengthsMm('EU', 30) = [185]. */
export function shoeFootLengthsMm(system: ShoeSystem, size: number): number[] {
  if (system === 'Mondopoint') return [size];
  if (system === 'EU') return [size * EU_STEP_MM - LAST_BEYOND_FOOT_MM];
  const { child, adult } = ZERO[system];
  const of = (zero: number) => (size + zero) * INCH_STEP_MM;
  return size <= LARGEST_CHILD ? [of(child), of(adult)] : [of(adult)];
}
