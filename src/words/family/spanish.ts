import type { Action } from '../../recall/contract.js';
import type { Region } from '../../rules/fit-rule.js';
import type { FamilyWords, Signs, UrgentReason, WornDevice } from './family-words.js';

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function device({ names, side }: WornDevice): string {
  const plain = (names.es ?? names.en).plain;
  if (side === 'left') return `${plain} (izquierda)`;
  return side === 'right' ? `${plain} (derecha)` : plain;
}

const MONTHS =
  'enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre'.split(' ');
const THIRDS = { early: 'principios', middle: 'mediados', late: 'finales' } as const;

const SKIN = ['rojez que dura más de 20 minutos', 'hinchazón, una ampolla o un sarpullido', 'la piel rota'];
const UNWELL = 'dolor, o no quiere llevarla';
const BROKEN = 'una grieta o un borde que corta';
const limb = (more: readonly string[], insensate: boolean): Signs => ({
  title: 'Deje de usarla y llámenos hoy si ve',
  signs: [
    ...SKIN,
    ...(insensate ? ['una pierna, un pie o un brazo caliente o hinchado'] : [UNWELL]),
    ...more,
    BROKEN,
  ],
});

function signs(region: Region, insensate: boolean): Signs {
  switch (region) {
    case 'head':
      return {
        title: 'Quite el casco y llámenos hoy si ve',
        signs: [...SKIN, 'el casco aprieta, se ladea o gira', BROKEN],
      };
    case 'trunk':
      return {
        title: 'Quite la faja y llámenos hoy si ve',
        signs: [
          ...SKIN,
          'le cuesta más respirar con ella',
          'las piernas dormidas o sin fuerza',
          ...(insensate ? [] : [UNWELL]),
          'se clava bajo los brazos o en las caderas, o una correa ya no cierra',
          BROKEN,
        ],
      };
    case 'hip':
      return {
        title: 'Llámenos hoy si ve esto. No quite la férula hasta que se lo digamos',
        signs: [
          ...SKIN,
          'una pierna que ya no mueve',
          'un pie frío, azul o hinchado',
          'una correa en el último agujero, o que se ha movido',
          BROKEN,
        ],
      };
    case 'wrist-hand':
      return limb(['dedos fríos, azules o dormidos', 'los dedos pasan del borde'], insensate);
    case 'boots':
      return limb(['los dedos pasan del borde, o el talón se sale', 'la barra suelta'], insensate);
    case 'shoe':
      return limb(['los dedos tocan la punta del zapato', 'el alza se despega'], insensate);
    case 'knee':
      return limb(['se baja sola, o una correa ya no cierra'], insensate);
    default:
      return limb(['los dedos pasan del borde, o una correa ya no cierra'], insensate);
  }
}

function seeNow({ region }: WornDevice, it: string, why: UrgentReason): string {
  if (why === 'head' || (region === 'head' && why === 'other'))
    return `No ponga ${it} y llámenos hoy. Antes tiene que verle un médico. Si vomita, está muy dormido o tiene la fontanela abultada, vaya enseguida al hospital.`;
  if (why === 'breathing')
    return `Quite ${it} y llámenos hoy. Si le sigue costando respirar, pida ayuda enseguida.`;
  if (region === 'hip') return `Llámenos hoy, por favor. No quite ${it} hasta que se lo digamos.`;
  return `Deje de usar ${it} y llámenos hoy.`;
}

function wanted(action: Action, worn: WornDevice, why: UrgentReason): string | null {
  const it = device(worn);
  switch (action) {
    case 'see-now':
      return seeNow(worn, it, why);
    case 'repair':
      return `Hay que arreglar ${it}. Llámenos hoy, por favor. ${worn.region === 'hip' ? 'No la quite hasta que se lo digamos.' : 'No la use con una parte suelta o que corta.'}`;
    case 'measure':
      return `Tenemos que medir a su hijo o hija para saber cuánto tiempo servirá ${it}.`;
    case 'adjust':
      return `Tenemos que ajustar ${it}. Después sigue sirviendo.`;
    case 'renew-part':
      return `Hay que cambiar una parte de ${it}. Lo demás sigue sirviendo.`;
    case 'cast':
      return `Es hora de hacer la siguiente. Mientras tanto puede usar ${it}, si la piel está bien.`;
    case 'check':
      return `Queremos mirar cómo le queda ${it}.`;
    default:
      return null;
  }
}

export const spanish: FamilyWords = {
  language: 'es',
  direction: 'ltr',
  name: 'Español',
  unchecked: 'Una persona de lengua española aún no ha revisado este texto. Si algo no está claro, llámenos.',
  device,
  month: ({ third, month }) => {
    const [year, number] = month.split('-');
    return `${THIRDS[third]} de ${MONTHS[Number(number) - 1]} de ${year}`;
  },
  title: (name) => (name ? `La férula de ${name}` : 'La férula de su hijo o hija'),
  fitsUntil: (it, month) => `${capital(it)} debería servir hasta ${month}, más o menos.`,
  meaning: (stillFits, tooSmall) =>
    [
      'Es lo que creemos hoy.',
      `Estamos seguros en 9 de cada 10 de que todavía sirve a ${stillFits}.`,
      tooSmall ? `Y en 9 de cada 10 de que ya queda pequeña a ${tooSmall}.` : '',
      'Lo miramos de nuevo cada vez que medimos.',
    ]
      .filter(Boolean)
      .join(' '),
  mayBeSmall: (it) => `${capital(it)} puede quedar pequeña ya. Llámenos, por favor.`,
  longTime: (it) => `${capital(it)} debería servir mucho tiempo. La revisamos en cada visita.`,
  byWear: (it) => `${capital(it)} se gasta antes de quedar pequeña. La revisamos en cada visita.`,
  wanted,
  beingMade: (it, date) =>
    date
      ? `La siguiente (${it}) se está haciendo. Pensamos probarla hacia el ${date}. Todavía no es una cita.`
      : `La siguiente (${it}) se está haciendo.`,
  noDevice: 'No tenemos apuntada ninguna férula. Llámenos si su hijo o hija lleva una.',
  guess:
    'Los niños crecen unas veces más deprisa y otras más despacio. La férula puede quedar pequeña antes.',
  correctedAge: (weeks) =>
    `Su hijo o hija nació ${weeks} semanas antes. Por eso contamos la edad desde el día en que tenía que nacer.`,
  skinTitle: 'Mire la piel todos los días',
  skinEveryDay: (region) => {
    if (region === 'hip')
      return 'No quite la férula. Mire alrededor de las correas y en los pliegues de la piel cada vez que cambie a su hijo o hija.';
    if (region === 'head') return 'Cuando quite el casco para lavar, mire toda la cabeza.';
    if (region === 'trunk') return 'Quite la faja. Mire bajo los brazos, las costillas y las caderas.';
    if (region === 'wrist-hand') return 'Quite la férula. Mire toda la mano y el brazo.';
    return 'Quite la férula. Mire todo el pie y la pierna, o donde toque la férula.';
  },
  marks: 'Una marca roja que se va en 20 minutos es normal. Una marca que se queda no lo es.',
  skinInsensate:
    'Puede que su hijo o hija no sienta dolor ahí. Mire por la mañana y por la noche, todos los días. No espere a que duela.',
  signs,
  emergency: (region) =>
    region === 'head'
      ? 'Vaya enseguida al hospital si vomita una y otra vez, si está muy dormido y cuesta despertarlo, o si tiene la fontanela abultada.'
      : null,
  doNotWait: (insensate) =>
    insensate
      ? 'No espere a la fecha de esta hoja si la piel tiene mal aspecto.'
      : 'No espere a la fecha de esta hoja si algo duele o tiene mal aspecto.',
  callUs: 'Llámenos:',
  numberOnCard: 'al número de su tarjeta de la clínica',
  visitTitle: 'Próxima visita',
  visitBefore: (date) =>
    `Nos gustaría ver a su hijo o hija antes del ${date}. Le llamaremos, o puede llamarnos.`,
  visitToday: 'Queremos ver a su hijo o hija hoy o mañana. Llámenos ahora, por favor.',
  visitNow: 'Nos gustaría ver pronto a su hijo o hija. Llámenos esta semana, por favor.',
  visitUsual: 'Venga a su visita de siempre.',
  bring: (inShoes) =>
    inShoes ? 'Traiga la férula y los zapatos que lleva con ella.' : 'Traiga la férula o el casco.',
  shoes: ({ EU, UK, US, Mondopoint }) =>
    `Zapatos para llevar con la férula: busque el número EU ${EU}, UK ${UK} o US ${US} (${Mondopoint} mm). Los números cambian de una tienda a otra: pruébelos con la férula puesta.`,
  shoesNext: (month) => `Es probable que haga falta un número más desde ${month}.`,
  chartTitle: 'Cómo ha crecido',
  madeOn: (date) => `Hecha el ${date}.`,
  linkUntil: (date) => `Este enlace funciona hasta el ${date}.`,
  otherLanguage: 'Otro idioma',
  letterTo: (name) => `A la familia de ${name}`,
  letterBy: (date) => `Llámenos, por favor, para ver a su hijo o hija antes del ${date}.`,
  letterSoon: 'Llámenos esta semana, por favor, para ver pronto a su hijo o hija.',
  letterWhy: {
    'see-now': '',
    repair: 'Hay que arreglar la férula.',
    measure: 'Tenemos que medir a su hijo o hija para saber cuánto tiempo le servirá la férula.',
    adjust: 'Toca ajustar la férula. Después sigue sirviendo.',
    'renew-part': 'Hay que cambiar una parte de la férula. Lo demás sigue sirviendo.',
    cast: 'La férula se va a quedar pequeña. Para tener la nueva a tiempo, tenemos que tomar el molde.',
    check: 'La férula puede quedar pequeña pronto. Queremos mirar cómo le queda.',
    review: 'Toca mirar la férula y la piel.',
    none: 'Toca la visita de siempre.',
  },
  questions: {
    title: 'Dos preguntas de la clínica',
    hint: 'La clínica lee sus respuestas. No sustituyen una llamada.',
    toes: 'De pie con la férula: ¿queda el ancho de un dedo delante de los dedos del pie?',
    toesAnswers: {
      finger: 'sí',
      less: 'no, menos',
      over: 'los dedos tocan el borde o lo pasan',
      unsure: 'no lo sé',
    },
    marks: '¿Hay marcas en la piel después de quitar la férula?',
    marksHip: '¿Hay marcas en la piel alrededor de la férula? Para mirar, déjela puesta.',
    marksAnswers: {
      none: 'no',
      fades: 'sí, se van en 20 minutos',
      lasts: 'sí, duran más',
      open: 'una ampolla o la piel abierta',
    },
    where: '¿Dónde?',
    minutes: '¿Cuántos minutos dura la marca?',
    send: 'Enviar a la clínica',
    thanks: 'Gracias. La clínica tiene sus respuestas.',
    incomplete: 'Conteste las dos preguntas, por favor. No se ha enviado nada.',
  },
};
