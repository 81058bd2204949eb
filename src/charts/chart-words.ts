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
  pace: (side, mm) => `${side}: ${mm} mm a year`,
  between: (from, to) => `${from} to ${to}`,
  after: (from) => `from ${from}`,
  usual: 'Most children of this age',
  braceRoom: 'The brace has room up to here',
  braceShould: 'The brace may get too small',
  familyTitle: (measure) => `Your child's ${measure}`,
  familyNote:
    'The wide soft stripe is our best guess of the growth to come. Growth can be quicker or slower.',
  size: 'Size',
  yearsOld: 'years',
  mm: 'mm',
};

const es: ChartWords = {
  left: 'Izquierda',
  right: 'Derecha',
  child: 'Medido',
  today: 'hoy',
  now: 'ya',
  dateAndAge: 'Fecha (arriba, la edad en años)',
  girls: 'niñas',
  boys: 'niños',
  predictionNote: 'Abanico: predicción del 80 %. Es una estimación, no un diagnóstico; revise ajuste y piel.',
  centilesNote: 'Gris: percentiles de referencia.',
  centile: 'percentil',
  outgrown: 'queda pequeño',
  pace: (side, mm) => `${side}: ${mm} mm al año`,
  between: (from, to) => `${from} a ${to}`,
  after: (from) => `desde ${from}`,
  usual: 'La mayoría de los niños de esta edad',
  braceRoom: 'Hasta aquí cabe en el aparato',
  braceShould: 'El aparato puede quedar pequeño',
  familyTitle: (measure) => `${measure.charAt(0).toUpperCase()}${measure.slice(1)} de su hijo o hija`,
  familyNote:
    'La franja ancha y suave es lo que esperamos que crezca. Puede crecer más deprisa o más despacio.',
  size: 'Tamaño',
  yearsOld: 'años',
  mm: 'mm',
};

export function chartWords(language: string): ChartWords {
  const tag = language.split('-')[0];
  return tag === 'es' ? es : { ...en, ...familyChartWords[tag] };
}
