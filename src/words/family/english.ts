import { capital } from '../../forecast/words.js';
import type { Action } from '../../recall/contract.js';
import type { FamilyWords, UrgentReason, WornDevice } from './family-words.js';
import { type SignPhrases, signsOf } from './signs.js';

function device({ names, side }: WornDevice): string {
  const { plain } = names.en;
  return side === 'left' || side === 'right' ? `the ${side} ${plain}` : `the ${plain}`;
}

const MONTHS = 'January February March April May June July August September October November December'.split(
  ' ',
);

const signs: SignPhrases = {
  titles: {
    limb: 'Stop wearing it and call us today if you see',
    head: 'Take the helmet off and call us today if you see',
    trunk: 'Take the brace off and call us today if you see',
    hip: 'Call us today if you see this. Leave the brace on until we tell you',
  },
  skin: ['redness that stays longer than 20 minutes', 'swelling, a blister or a rash', 'broken skin'],
  skinHip: 'redness that is still there at the next change',
  unwell: 'pain, or your child will not wear it',
  unwellHip: 'a child that cries when the leg is moved',
  swollen: 'a leg, foot or arm that is warm or swollen (a bone may be broken)',
  cold: {
    toes: 'toes that are cold, blue or numb',
    toesInsensate: 'toes that are cold or blue',
    fingers: 'fingers that are cold, blue or numb',
    fingersInsensate: 'fingers that are cold or blue',
  },
  broken: 'a crack or a sharp edge',
  more: {
    head: ['a helmet that is tight, tips or turns'],
    trunk: [
      'breathing that is harder in the brace',
      'numb or weak legs',
      'a brace that cuts in under the arms or at the hips, or a strap that no longer closes',
    ],
    hip: [
      'a leg that your child no longer kicks',
      'a foot that is cold, blue or swollen',
      'a strap that is on its last hole, or that has moved',
    ],
    hand: ['fingers past the end'],
    boots: ['toes that curl over the edge, or a heel that slips out', 'a loose bar'],
    shoe: ['toes that touch the front of the shoe', 'a raise that comes off'],
    knee: ['a brace that slips down, or a strap that no longer closes'],
    leg: ['toes over the edge, or a strap that no longer closes'],
  },
};

function seeNow({ region }: WornDevice, it: string, why: UrgentReason): string {
  if (why === 'head' || (region === 'head' && why === 'other'))
    return `Leave ${it} off and call us today. A doctor must look at your child first. If your child throws up, is very sleepy or has a soft spot that bulges, go to the hospital at once.`;
  if (why === 'breathing')
    return `Take ${it} off and call us today. If your child still finds it hard to breathe, call for help at once.`;
  if (region === 'hip') return `Please call us today. Leave ${it} on until we tell you.`;
  return `Stop wearing ${it} and call us today.`;
}

function wanted(action: Action, worn: WornDevice, why: UrgentReason): string | null {
  const it = device(worn);
  const off =
    worn.region === 'hip' ? `Leave it on until we tell you.` : `Do not wear it with a loose or sharp part.`;
  switch (action) {
    case 'see-now':
      return seeNow(worn, it, why);
    case 'repair':
      return `${capital(it)} must be mended. Please call us today. ${off}`;
    case 'measure':
      return `We need to measure your child before we can say how long ${it} fits.`;
    case 'adjust':
      return `We need to set ${it} a little larger. Your child goes on wearing it.`;
    case 'renew-part':
      return `A part of ${it} must be made new. Your child goes on wearing the rest.`;
    case 'cast':
      return `It is time to make the next one. Your child can wear ${it} until then if the skin is well. If it is not, call us.`;
    case 'check':
      return `We want to look at how ${it} fits.`;
    default:
      return null;
  }
}

export const english: FamilyWords = {
  language: 'en',
  direction: 'ltr',
  name: 'English',
  unchecked:
    'These words have not yet been checked by a native reader. If something is not clear, please call us.',
  device,
  month: ({ third, month }) => {
    const [year, number] = month.split('-');
    const name = `${MONTHS[Number(number) - 1]} ${year}`;
    return third === 'middle' ? `the middle of ${name}` : `${third} ${name}`;
  },
  title: (name) => (name ? `${name}'s brace` : 'Your child’s brace'),
  fitsUntil: (it, month) => `${capital(it)} should fit until about ${month}.`,
  meaning: (stillFits, tooSmall) =>
    [
      'This is our best guess.',
      `We are 9 in 10 sure that it still fits in ${stillFits}.`,
      tooSmall ? `We are 9 in 10 sure that it is too small by ${tooSmall}.` : '',
      'We look again each time we measure.',
    ]
      .filter(Boolean)
      .join(' '),
  mayBeSmall: (it) => `${capital(it)} may be too small now. Please call us.`,
  longTime: (it) =>
    `We do not think that ${it} gets too small soon. A child can grow faster, so we check it at each visit.`,
  byWear: (it) => `${capital(it)} wears out before it gets too small. We check it at each visit.`,
  wanted,
  beingMade: (it, date) =>
    date
      ? `The next one after ${it} is being made. We plan to fit it about ${date}. This is not yet a visit.`
      : `The next one after ${it} is being made.`,
  noDevice: 'There is no brace in use in our notes. Please call us if your child wears one.',
  guess: 'Children grow faster at some times and slower at others. A brace can get too small sooner.',
  correctedAge: (weeks) =>
    `Your child came ${weeks} weeks early. So we count the age from the day your child was due.`,
  skinTitle: 'Look at the skin every day',
  skinEveryDay: (region) => {
    if (region === 'hip')
      return 'Leave the brace on. Look round the straps and in the folds of the skin each time you change your child.';
    if (region === 'head') return 'When the helmet is off for the wash, look at the whole head.';
    if (region === 'trunk') return 'Take the brace off. Look under the arms, at the ribs and at the hips.';
    if (region === 'wrist-hand') return 'Take the brace off. Look at the whole hand and arm.';
    return 'Take the brace off. Look at the whole foot and leg, or wherever the brace touches.';
  },
  marks: 'A red mark that goes away in 20 minutes is usual. A mark that stays is not.',
  skinInsensate:
    'Your child may not feel pain there. Look in the morning and in the evening, every day. Do not wait until it hurts.',
  signs: (region, insensate) => signsOf(signs, region, insensate),
  emergency: (region) => {
    if (region === 'trunk')
      return 'Call for help at once if your child still finds it hard to breathe when the brace is off.';
    return region === 'head'
      ? 'Go to the hospital at once if your child throws up again and again, is very sleepy and hard to wake, or has a soft spot that bulges.'
      : null;
  },
  doNotWait: (insensate) =>
    insensate
      ? 'Do not wait for a date on this page when the skin looks wrong.'
      : 'Do not wait for a date on this page when something hurts or looks wrong.',
  callUs: 'Call us:',
  numberOnCard: 'the number on your clinic card',
  visitTitle: 'Next visit',
  visitBefore: (date) =>
    `We would like to see your child before ${date}. We will call you, or you can call us.`,
  visitToday: 'We want to see your child today or on the next day we are open. Please call us now.',
  visitNow: 'We would like to see your child soon. Please call us this week.',
  visitUsual: 'Please keep your usual visit.',
  bring: (inShoes) =>
    inShoes
      ? 'Bring the brace and the shoes your child wears with it.'
      : 'Bring the brace or helmet with you.',
  shoes: ({ EU, UK, US, Mondopoint }) =>
    `Shoes to wear with the brace: look for size EU ${EU}, UK ${UK} or US ${US} (${Mondopoint} mm). Sizes are not the same in each shop, so try them on with the brace in.`,
  shoesNext: (month) => `A bigger size is likely to be needed from ${month}.`,
  chartTitle: 'How your child has grown',
  madeOn: (date) => `Made on ${date}.`,
  linkUntil: (date) => `This link works until ${date}.`,
  otherLanguage: 'Other language',
  letterTo: (name) => `To the parents or carers of ${name}`,
  letterBy: (date) => `Please call us, so that we can see your child before ${date}.`,
  letterSoon: 'Please call us this week, so that we can see your child soon.',
  // The English letter carries the reason's own sentence (see reason-sentence.ts).
  letterWhy: {},
  questions: {
    title: 'Two questions from the clinic',
    hint: 'The clinic reads your answers. They do not take the place of a call.',
    toes: 'When your child stands in the brace, is there the width of a finger in front of the toes?',
    toesAnswers: {
      finger: 'yes',
      less: 'no, less',
      over: 'the toes touch or pass the edge',
      unsure: 'I do not know',
    },
    marks: 'Are there marks on the skin when the brace is off?',
    marksHip: 'Are there marks on the skin around the brace? Do not take it off to look.',
    marksAnswers: {
      none: 'no',
      fades: 'yes, they go away in 20 minutes',
      lasts: 'yes, they stay longer',
      open: 'a blister or open skin',
    },
    where: 'Where?',
    minutes: 'How many minutes does the mark stay?',
    send: 'Send to the clinic',
    thanks: 'Thank you. The clinic has your answers.',
    incomplete: 'Please answer both questions. Nothing was sent.',
  },
};
