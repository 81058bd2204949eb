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
  shoe_length: 'número de zapato',
  weight: 'peso',
};

/** What charts are most often drawn of; any other measure is called what `any` says. */
const others: Readonly<Record<string, { readonly any: string } & Partial<Record<MeasureId, string>>>> = {
  fr: {
    foot_length: 'la longueur du pied',
    stature: 'la taille debout',
    head_circumference: 'le tour de tête',
    sitting_height: 'la taille assise',
    knee_height: 'la hauteur du genou',
    calf_girth: 'le tour du mollet',
    any: 'la mesure',
  },
  pl: {
    foot_length: 'długość stopy',
    stature: 'wzrost',
    head_circumference: 'obwód głowy',
    sitting_height: 'wysokość siedząc',
    knee_height: 'wysokość kolana',
    calf_girth: 'obwód łydki',
    any: 'wymiar',
  },
  tr: {
    foot_length: 'ayak uzunluğu',
    stature: 'boy',
    head_circumference: 'baş çevresi',
    sitting_height: 'oturma boyu',
    knee_height: 'diz yüksekliği',
    calf_girth: 'baldır çevresi',
    any: 'ölçü',
  },
  uk: {
    foot_length: 'довжина стопи',
    stature: 'зріст',
    head_circumference: 'обвід голови',
    sitting_height: 'зріст сидячи',
    knee_height: 'висота коліна',
    calf_girth: 'обвід гомілки',
    any: 'розмір',
  },
  ar: {
    foot_length: 'طول القدم',
    stature: 'الطول',
    head_circumference: 'محيط الرأس',
    sitting_height: 'الطول جالسًا',
    knee_height: 'ارتفاع الركبة',
    calf_girth: 'محيط الساق',
    any: 'القياس',
  },
};

/** What a family calls a measure, in its language; English where we have none. plainMeasure('foot_length', 'es-MX') = 'largo del pie'. */
export function plainMeasure(measure: MeasureId, language: string): string {
  const tag = language.split('-')[0];
  if (tag === 'es') return spanish[measure];
  const words = others[tag];
  return words ? (words[measure] ?? words.any) : measures[measure].plainLabel;
}
