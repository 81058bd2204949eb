import { headingCandidates } from '../headings/heading-meaning.js';

/** 'Foot length (mm) by visit', 'Control de pies 2026' -> what of a title says a measure; null where nothing does. */
export function measureInTitle(text: string): string | null {
  if (text === '' || text.length > 100) return null;
  const words = text.split(/\s+/);
  let best = { part: null as string | null, strength: 0 };
  for (let n = words.length; n >= 1; n--)
    for (let from = 0; from + n <= words.length; from++) {
      const part = words.slice(from, from + n).join(' ');
      const found = headingCandidates(part)[0];
      const says = found?.meaning.kind === 'reading' && found.strength >= (from === 0 ? 0.75 : 0.9);
      // 'Foot lengths in mm' before 'Foot lengths in mm - Tuesday', and before 'Foot'.
      if (says && found.strength > best.strength + 0.05) best = { part, strength: found.strength };
    }
  return best.part;
}

/** A file's name as the words of a title. */
export const fileTitle = (file: string): string =>
  file
    .replace(/\.\w+( |$)/, ' ')
    .replace(/[-_]/g, ' ')
    .trim();
