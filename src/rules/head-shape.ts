/** Asymmetry of the head from its two diagonals and its proportions from breadth and length. */
export interface HeadShape {
  /** Cranial vault asymmetry: longer less shorter diagonal, mm. */
  readonly asymmetryMm: number;
  /** Cranial vault asymmetry index: the difference in per cent of the shorter diagonal (Loveday & de Chalain 2001, as quoted
   * on clinic pages; some pages divide by the longer one, so compare only with figures of the same kind). */
  readonly asymmetryPercent: number;
  /** Which forehead the longer diagonal starts from. */
  /** Smallest change of asymmetry two readings a side can show at 95 %, mm: 1.96 x 2 x technical error. */
  readonly detectableChangeMm: number;
}

/** headShape(140, 132, 2) = {asymmetryMm: 8, asymmetryPercent: 6.06, detectableChangeMm: 7.84}. */
export function headShape(
  leftDiagonalMm: number,
  rightDiagonalMm: number,
  technicalErrorMm: number,
): HeadShape {
  const asymmetryMm = Math.abs(leftDiagonalMm - rightDiagonalMm);
  return {
    asymmetryMm,
    asymmetryPercent: (100 * asymmetryMm) / Math.min(leftDiagonalMm, rightDiagonalMm),
    detectableChangeMm: 1.96 * 2 * technicalErrorMm,
  };
}
