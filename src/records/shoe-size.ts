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
  ({ EU: EU_STEP_MM, Mondopoint: 5, UK: INCH_STEP_MM, US: INCH_STEP_MM })[system];

/** Foot lengths a size can be made for: two where the children's and the adults' scale both have it. shoeFootLengthsMm('EU', 30) = [185]. */
export function shoeFootLengthsMm(system: ShoeSystem, size: number): number[] {
  if (system === 'Mondopoint') return [size];
  if (system === 'EU') return [size * EU_STEP_MM - LAST_BEYOND_FOOT_MM];
  const { child, adult } = ZERO[system];
  const of = (zero: number) => (size + zero) * INCH_STEP_MM;
  return size <= LARGEST_CHILD ? [of(child), of(adult)] : [of(adult)];
}

/** A size as shops write it in each system. */
export type ShoeSizes = Readonly<Record<ShoeSystem, string>>;

/** The smallest size made for a foot of this length or longer: shoeSizesFor(200).EU = '33'. Half sizes in British and American ones only. */
export function shoeSizesFor(footMm: number): ShoeSizes {
  const inches = ({ child, adult }: { child: number; adult: number }): string => {
    const half = (zero: number) => Math.ceil((footMm / INCH_STEP_MM - zero) * 2 - 1e-6) / 2;
    const size = half(child) <= LARGEST_CHILD ? half(child) : half(adult);
    return `${Math.floor(size)}${Number.isInteger(size) ? '' : '½'}`;
  };
  return {
    EU: String(Math.ceil((footMm + LAST_BEYOND_FOOT_MM) / EU_STEP_MM - 1e-6)),
    UK: inches(ZERO.UK),
    US: inches(ZERO.US),
    Mondopoint: String(Math.ceil(footMm / shoeStepMm('Mondopoint') - 1e-6) * shoeStepMm('Mondopoint')),
  };
}
