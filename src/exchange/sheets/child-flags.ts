import { noWords, yesWords } from './cell-words.js';

/** What is said of a child by yes or no. */
export const FLAGS = ['insensate_skin', 'latex_alert', 'palliative', 'walks', 'prefers_holidays'] as const;

/** Yes or no as a cell says it; null where it can be neither. */
export function flagSaid(name: (typeof FLAGS)[number], word: string): 'yes' | 'no' | null {
  const yes = yesWords.has(word);
  const no = noWords.has(word);
  if (
    name === 'insensate_skin' &&
    !/^(yes|no|y|n|x|ja|nein|nee|oui|non|si|true|false|0|1|j|s|o)$/.test(word)
  ) {
    const cannot = skinCannotWarn(word);
    if (cannot !== null) return cannot ? 'yes' : 'no';
  } else if (yes !== no) return yes ? 'yes' : 'no';
  const alert =
    name === 'latex_alert' &&
    /allerg|latex|alert|yes|ja|oui|risk|risiko|precaution/.test(word) &&
    !/no |kein|non |nessun|geen|ninguna/.test(`${word} `);
  return alert ? 'yes' : null;
}

/** 'reduced', 'absent below knee' over 'Sensation' means skin that cannot warn; 'normal', 'intact' that it can; null for both or neither. */
function skinCannotWarn(word: string): boolean | null {
  const can =
    /normal|intact|intakt|unauffallig|conserv|integra|goed|full|gut|bonne|buena|buona|present|^ok/.test(word);
  const cannot =
    /absent|reduc|poor|no |none|impair|insens|lost|fehlt|vermind|gefuhllos|taub|absente|diminu|dismin|ridott|assente|verminder|gevoelloos|alter|loss|partial|below|unter|sotto|debajo/.test(
      `${word} `,
    );
  return can === cannot ? null : cannot;
}
