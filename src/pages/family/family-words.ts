/**
 * Everything a family reads, by language, in short sentences for a reading age of about eleven. Window and actions,
 * no score, no diagnosis, no promised appointment (trade wording; skin rule: redness over 20 to 30 minutes, NHS Fife
 * patient leaflet as cited in the reference notes). A new language is one more entry here and in the charts' words.
 */
import { capital } from '../../forecast/words.js';
import type { Action } from '../../recall/contract.js';

export interface FamilyWords {
  readonly language: string;
  readonly direction: 'ltr' | 'rtl';
  readonly name: string;
  readonly device: (family: string, side: string) => string;
  readonly title: (name: string) => string;
  readonly fitsUntil: (device: string, month: string) => string;
  readonly meaning: (early: string, late: string | null) => string;
  readonly mayBeSmall: (device: string) => string;
  readonly longTime: (device: string) => string;
  readonly byWear: (device: string) => string;
  readonly measureFirst: (device: string) => string;
  readonly seeFirst: (device: string) => string;
  readonly noDevice: string;
  readonly guess: string;
  readonly skinTitle: string;
  readonly skinEveryDay: string;
  readonly skinInsensate: string;
  readonly signsTitle: string;
  readonly signs: readonly string[];
  readonly doNotWait: string;
  readonly callUs: string;
  readonly numberOnCard: string;
  readonly visitTitle: string;
  readonly visitBefore: (date: string) => string;
  readonly visitNow: string;
  readonly visitUsual: string;
  readonly bring: string;
  readonly chartTitle: string;
  readonly print: string;
  readonly madeOn: (date: string) => string;
  readonly otherLanguage: string;
  readonly letterTo: (name: string) => string;
  readonly letterBy: (date: string) => string;
  readonly letterSoon: string;
  readonly letterWhy: Readonly<Record<Action, string>>;
}

const englishDevices: Readonly<Record<string, string>> = {
  'foot-orthosis': 'shoe insert',
  'supramalleolar-orthosis': 'ankle brace',
  'solid-afo': 'lower leg brace',
  'afo-with-straps': 'lower leg brace',
  'articulated-afo': 'lower leg brace with a hinge',
  'ground-reaction-afo': 'lower leg brace',
  kafo: 'long leg brace',
  hkafo: 'hip and leg brace',
  'hip-abduction-orthosis': 'hip brace',
  'spinal-orthosis': 'back brace',
  'cranial-orthosis': 'helmet',
};
const spanishDevices: Readonly<Record<string, string>> = {
  'foot-orthosis': 'la plantilla',
  'supramalleolar-orthosis': 'la tobillera',
  'solid-afo': 'la férula de la pierna',
  'afo-with-straps': 'la férula de la pierna',
  'articulated-afo': 'la férula articulada de la pierna',
  'ground-reaction-afo': 'la férula de la pierna',
  kafo: 'la férula larga de la pierna',
  hkafo: 'la férula de cadera y pierna',
  'hip-abduction-orthosis': 'la férula de la cadera',
  'spinal-orthosis': 'la faja rígida de la espalda',
  'cranial-orthosis': 'la cascarilla de la cabeza',
};

const en: FamilyWords = {
  language: 'en',
  direction: 'ltr',
  name: 'English',
  device: (family, side) => {
    const word = englishDevices[family] ?? 'brace';
    return side === 'left' || side === 'right' ? `the ${side} ${word}` : `the ${word}`;
  },
  title: (name) => (name ? `${name}'s brace` : 'Your child’s brace'),
  fitsUntil: (device, month) => `${capital(device)} should fit until about ${month}.`,
  meaning: (early, late) =>
    `This is our best guess. In 9 out of 10 children like yours it still fits in ${early}. ${
      late ? `By ${late} it is too small in 9 out of 10.` : 'After that it slowly gets too small.'
    } We look again each time we measure.`,
  mayBeSmall: (device) => `${capital(device)} may be too small now. Please call us.`,
  longTime: (device) => `${capital(device)} should fit for a long time. We still check it at each visit.`,
  byWear: (device) => `${capital(device)} wears out before it gets too small. We check it at each visit.`,
  measureFirst: (device) => `We need to measure your child before we can say how long ${device} fits.`,
  seeFirst: (device) => `We want to see your child before we say how long ${device} fits. Please call us.`,
  noDevice: 'There is no brace in use in our notes. Please call us if your child wears one.',
  guess: 'Children grow faster at some times and slower at others. A brace can get too small sooner.',
  skinTitle: 'Look at the skin every day',
  skinEveryDay: 'Take the brace off. Look at the whole foot and leg, or wherever the brace touches.',
  skinInsensate: 'Your child may not feel pain there. Look in the morning and in the evening, every day.',
  signsTitle: 'Stop wearing it and call us if you see',
  signs: [
    'redness that stays longer than 20 minutes',
    'swelling, a blister or a rash',
    'broken skin',
    'pain, or your child will not wear it',
    'toes over the edge, or a strap that no longer closes',
    'a crack or a sharp edge',
  ],
  doNotWait: 'Do not wait for a date on this page when something hurts or looks wrong.',
  callUs: 'Call us:',
  numberOnCard: 'the number on your clinic card',
  visitTitle: 'Next visit',
  visitBefore: (date) =>
    `We would like to see your child before ${date}. We will call you, or you can call us.`,
  visitNow: 'We would like to see your child soon. Please call us this week.',
  visitUsual: 'Please keep your usual visit.',
  bring: 'Bring the brace and the shoes your child wears with it.',
  chartTitle: 'How your child has grown',
  print: 'Print this page',
  madeOn: (date) => `Made on ${date}.`,
  otherLanguage: 'Other language',
  letterTo: (name) => `To the parents or carers of ${name}`,
  letterBy: (date) => `Please call us, so that we can see your child before ${date}.`,
  letterSoon: 'Please call us this week, so that we can see your child soon.',
  letterWhy: {
    'see-now': '',
    repair: '',
    measure: '',
    adjust: '',
    'renew-part': '',
    cast: '',
    check: '',
    review: '',
    none: '',
  },
};

const es: FamilyWords = {
  language: 'es',
  direction: 'ltr',
  name: 'Español',
  device: (family, side) => {
    const word = spanishDevices[family] ?? 'la férula';
    return side === 'left' ? `${word} (izquierda)` : side === 'right' ? `${word} (derecha)` : word;
  },
  title: (name) => (name ? `La férula de ${name}` : 'La férula de su hijo o hija'),
  fitsUntil: (device, month) => `${capital(device)} debería servir hasta ${month}, más o menos.`,
  meaning: (early, late) =>
    `Es lo que creemos hoy. A 9 de cada 10 niños como el suyo todavía les sirve en ${early}. ${
      late ? `En ${late} ya les queda pequeña a 9 de cada 10.` : 'Después se va quedando pequeña.'
    } Lo miramos de nuevo cada vez que medimos.`,
  mayBeSmall: (device) => `${capital(device)} puede quedar pequeña ya. Llámenos, por favor.`,
  longTime: (device) => `${capital(device)} debería servir mucho tiempo. La revisamos en cada visita.`,
  byWear: (device) => `${capital(device)} se gasta antes de quedar pequeña. La revisamos en cada visita.`,
  measureFirst: (device) => `Tenemos que medir a su hijo o hija para saber cuánto tiempo servirá ${device}.`,
  seeFirst: (device) =>
    `Queremos ver a su hijo o hija antes de decir cuánto tiempo servirá ${device}. Llámenos, por favor.`,
  noDevice: 'No tenemos apuntada ninguna férula. Llámenos si su hijo o hija lleva una.',
  guess:
    'Los niños crecen unas veces más deprisa y otras más despacio. La férula puede quedar pequeña antes.',
  skinTitle: 'Mire la piel todos los días',
  skinEveryDay: 'Quite la férula. Mire todo el pie y la pierna, o donde toque la férula.',
  skinInsensate:
    'Puede que su hijo o hija no sienta dolor ahí. Mire por la mañana y por la noche, todos los días.',
  signsTitle: 'Deje de usarla y llámenos si ve',
  signs: [
    'rojez que dura más de 20 minutos',
    'hinchazón, una ampolla o un sarpullido',
    'la piel rota',
    'dolor, o no quiere llevarla',
    'los dedos pasan del borde, o una correa ya no cierra',
    'una grieta o un borde que corta',
  ],
  doNotWait: 'No espere a la fecha de esta hoja si algo duele o tiene mal aspecto.',
  callUs: 'Llámenos:',
  numberOnCard: 'al número de su tarjeta de la clínica',
  visitTitle: 'Próxima visita',
  visitBefore: (date) =>
    `Nos gustaría ver a su hijo o hija antes del ${date}. Le llamaremos, o puede llamarnos.`,
  visitNow: 'Nos gustaría ver pronto a su hijo o hija. Llámenos esta semana, por favor.',
  visitUsual: 'Venga a su visita de siempre.',
  bring: 'Traiga la férula y los zapatos que lleva con ella.',
  chartTitle: 'Cómo ha crecido',
  print: 'Imprimir esta hoja',
  madeOn: (date) => `Hecha el ${date}.`,
  otherLanguage: 'Otro idioma',
  letterTo: (name) => `A la familia de ${name}`,
  letterBy: (date) => `Llámenos, por favor, para ver a su hijo o hija antes del ${date}.`,
  letterSoon: 'Llámenos esta semana, por favor, para ver pronto a su hijo o hija.',
  letterWhy: {
    cast: 'La férula se va a quedar pequeña. Para tener la nueva a tiempo, tenemos que tomar el molde.',
    measure: 'Tenemos que medir a su hijo o hija para saber cuánto tiempo le servirá la férula.',
    'see-now': 'Queremos ver a su hijo o hija hoy o mañana.',
    repair: 'La férula está rota o falta: venga para arreglarla o cambiarla.',
    adjust: 'Toca ajustar la férula.',
    'renew-part': 'Toca cambiar una parte de la férula; lo demás sigue en uso.',
    check: 'La férula puede quedar pequeña pronto: queremos mirar cómo queda.',
    review: 'Toca la revisión de siempre.',
    none: 'No hay nada pendiente.',
  },
};

export const familyLanguages: readonly FamilyWords[] = [en, es];

/** The words of a language tag ('es-MX' is answered in Spanish); English where we have none. */
export const familyWords = (language: string): FamilyWords =>
  familyLanguages.find((w) => language.toLowerCase().split('-')[0] === w.language) ?? en;
