import { type MeasureId, measures } from '../records/measure.js';

/** Plain names of the measures for a Spanish-speaking family; the English ones stand with the measures. */
const spanish: Readonly<Record<MeasureId, string>> = {
  foot_length: 'largo del pie',
  foot_breadth: 'ancho del pie',
  heel_width: 'ancho del talón',
  malleolar_width: 'ancho del tobillo',
  ankle_height: 'altura del tobillo',
  knee_height: 'altura de la rodilla',
  fibular_head_height: 'altura del hueso de fuera de la rodilla',
  hip_height: 'altura de la cadera',
  asis_height: 'altura del hueso de la cadera',
  leg_length: 'largo de la pierna',
  asis_malleolus_length: 'largo de la pierna con cinta',
  sitting_height: 'altura sentado',
  stature: 'estatura',
  ankle_girth: 'contorno del tobillo',
  calf_girth: 'contorno de la pantorrilla',
  thigh_girth: 'contorno del muslo',
  hip_girth: 'contorno de la cadera',
  waist_girth: 'contorno de la cintura',
  chest_girth: 'contorno del pecho',
  axillary_girth: 'contorno del pecho bajo los brazos',
  pelvic_breadth: 'ancho de la pelvis',
  head_circumference: 'contorno de la cabeza',
  head_breadth: 'ancho de la cabeza',
  head_length: 'largo de la cabeza',
  head_diagonal: 'diagonal de la cabeza',
  hand_length: 'largo de la mano',
  hand_breadth: 'ancho de la mano',
  forearm_length: 'largo del antebrazo',
  forearm_girth: 'contorno del antebrazo',
  weight: 'peso',
};

/** What a family calls a measure, in its language; English where we have none. plainMeasure('foot_length', 'es-MX') = 'largo del pie'. */
export const plainMeasure = (measure: MeasureId, language: string): string =>
  language.startsWith('es') ? spanish[measure] : measures[measure].plainLabel;
