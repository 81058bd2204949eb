import type { LimitFigure } from '../../rules/clinic-limits.js';

/** What each figure of a fit rule means to the people who judge a fit by it. */
export const figureWords: Readonly<Record<LimitFigure, { readonly label: string; readonly hint: string }>> = {
  allowanceMm: {
    label: 'Outgrown after',
    hint: 'growth since the cast',
  },
  allowanceBehindToesMm: {
    label: 'Outgrown after, plate ending behind the toes',
    hint: 'growth since the cast',
  },
  tightWithinMm: {
    label: 'Tight within',
    hint: 'a reviewer calls it tight with less room than this',
  },
  toleranceMm: {
    label: 'Spread between devices',
    hint: 'one standard deviation of a device’s real limit about the figure',
  },
};
