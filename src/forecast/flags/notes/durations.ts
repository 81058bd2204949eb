import words from './note-words.json' with { type: 'json' };
import { anyOf, has } from './phrases.js';

const MINUTES: readonly [RegExp, number][] = [
  [/^(?:m|min|mins|minute|minutes|minuten|minutos|mts)$/, 1],
  [/^(?:h|hr|hrs|hour|hours|stunde|stunden|std|heure|heures|hora|horas)$/, 60],
  [/^(?:day|days|tag|tage|tagen|jour|jours|dia|dias)$/, 1440],
  [/^(?:week|weeks|wk|wks|woche|wochen|semaine|semaines|semana|semanas)$/, 10_080],
];
const DURATION = /(\d+(?:\.\d+)?)(?:\s*(?:-|to)\s*(\d+(?:\.\d+)?))?\s*([a-z]+)/g;
const wearTime = anyOf(words.wearTime);
const NOT_A_SPAN =
  /^\s*(ago|earlier|before(?! (?:(?:the |his |her )?(?:red\w*|pink\w*|marks?|colou?r)|it|they) )|old|later on|a day|per day|daily)\b/;

/**
 * How long a clause says that something lasted, minutes, the longest; null when it says nothing. Wearing time ('worn 6
 * hours', 'an hour in brace') and time past ('2 days ago') are none; days and weeks only as 'for 3 days'.
 */
export function lastedMinutes(clause: string): number | null {
  const found: number[] = [];
  for (const m of clause.matchAll(DURATION)) {
    const unit = MINUTES.find(([pattern]) => pattern.test(m[3]));
    if (!unit) continue;
    const before = clause.slice(0, m.index).trimEnd().split(/\s+/).slice(-3).join(' ');
    const after = clause.slice(m.index + m[0].length);
    const near = after.trimStart().split(/\s+/).slice(0, 3).join(' ');
    if (NOT_A_SPAN.test(after) || has(wearTime, near) || has(wearTime, before)) continue;
    if (unit[1] >= 1440 && !/\bfor( the last| the past| about)?$/.test(before)) continue;
    found.push(Number(m[2] ?? m[1]) * unit[1]);
  }
  return found.length > 0 ? Math.max(...found) : null;
}

const SPAN_DAYS: readonly [RegExp, number][] = [
  [/^d(?:ays?)?$/, 1],
  [/^w(?:ee)?ks?$/, 7],
  [/^(?:mo|mths?|months?)$/, 30],
];
const AGO =
  /\b(\d+|an?|couple of|few) (d|days?|w(?:ee)?ks?|mo|mths?|months?) (?:ago|post|since|following|out from)\b/;
const WORDS: Readonly<Record<string, number>> = { a: 1, an: 1, 'couple of': 2, few: 3 };

/** How long ago a clause says that something was done, days: 'two months ago', '6 weeks post'; null when it does not say, or a year and more. */
export function doneDaysAgo(clause: string): number | null {
  const found = AGO.exec(clause);
  if (!found) {
    if (/\blast week\b/.test(clause)) return 7;
    return /\blast month\b/.test(clause) ? 30 : null;
  }
  const each = SPAN_DAYS.find(([unit]) => unit.test(found[2]))?.[1] ?? 0;
  const days = (WORDS[found[1]] ?? Number(found[1])) * each;
  return days < 366 ? days : null;
}
