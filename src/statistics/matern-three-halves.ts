/**
 * Correlation of a Matern process with smoothness 3/2 (once differentiable paths) at a distance, for a
 * length scale in the same unit. Rasmussen & Williams (2006), Gaussian Processes for Machine Learning, eq. 4.17.
 * maternThreeHalves(0, 1) = 1; maternThreeHalves(1, 1) = 0.4833577245965077.
 */
export function maternThreeHalves(distance: number, lengthScale: number): number {
  const r = (Math.sqrt(3) * Math.abs(distance)) / lengthScale;
  return (1 + r) * Math.exp(-r);
}
