import { familyChartWords } from './family-chart-words.js';
import type { ChartWords } from './words-of-a-chart.js';

const en: ChartWords = {
  left: 'Left',
  right: 'Right',
  child: 'Measured',
  today: 'today',
  now: 'now',
  dateAndAge: 'Date (age in years along the top)',
  girls: 'girls',
  boys: 'boys',
  predictionNote: 'Shaded fan: 80 % prediction. An estimate, not a diagnosis; check fit and skin.',
  centilesNote: 'Grey: reference centiles.',
  centile: 'centile',
  outgrown: 'outgrown',
  pace: (side, mm) => `${side}: ${mm} mm a year expected`,
  between: (from, to) => `${from} to ${to}`,
  after: (from) => `from ${from}`,
  usual: 'Most children of this age',
  braceRoom: 'The brace has room up to here',
  braceShould: 'The brace may get too small',
  familyTitle: (measure) => `Your child's ${measure}`,
  familyNote:
    'The wide soft stripe is our best guess of the growth to come. Growth can be quicker or slower.',
  size: 'Size',
  mm: 'mm',
};

/** A clinician's chart is in English; a family's in its language, where we have the words. */
export const chartWords = (language: string): ChartWords => ({
  ...en,
  ...familyChartWords[language.split('-')[0]],
});
