import { daysBetween } from '../../records/dates.js';
import { cautions } from '../cautions.js';
import type { Flag } from '../contract.js';
import { plainDate } from '../words.js';
import { type FlagInput, flag } from './flag-input.js';

/** A verdict this improbable before it was given does not fit the measurements. */
const SURPRISE = 0.05;
const NOTE_DAYS = 60;
const SKIN_WORDS =
  /\b(red|redness|sore|blister\w*|wound|ulcer\w*|pain\w*|skin (break|injury)|pressure (mark|area))\b/i;
const DENIED = /\b(no|not|without|nil|never)\b[^.;,]*$/i;

/** True when a note speaks of skin or pain and does not deny it in the same clause. */
export function mentionsSkin(note: string): boolean {
  const found = SKIN_WORDS.exec(note);
  return found !== null && !DENIED.test(note.slice(0, found.index));
}

/** What a device's own events say that growth does not: skin notes, verdicts against growth, breakage, lost amounts. */
export function deviceFlags(input: FlagInput): Flag[] {
  return input.plans.flatMap((plan) => {
    const { id } = plan.device;
    const about = { deviceId: id };
    const own = input.record.events.filter((e) => e.deviceId === id);
    const skin = own.filter((e) => daysBetween(e.date, input.today) <= NOTE_DAYS && mentionsSkin(e.note));
    const surprised = (input.answers.get(id)?.surprise ?? []).filter((s) => s.likelihood < SURPRISE);
    const unread = plan.history.since.filter(
      (e) => e.kind === 'adjusted' && (e.measure === null || e.changeMm === null),
    );
    return [
      ...skin
        .slice(-1)
        .map((e) =>
          flag(
            input,
            `skin-note-${id}`,
            'act-now',
            cautions.skinNote,
            `A note of ${plainDate(e.date)} speaks of skin or pain.`,
            about,
          ),
        ),
      ...surprised
        .slice(-1)
        .map((s) =>
          flag(
            input,
            `verdict-mismatch-${id}`,
            'check',
            cautions.mismatch,
            `The verdict '${s.event.verdict}' of ${plainDate(s.event.date)} is unlikely from the measurements.`,
            about,
          ),
        ),
      ...(plan.history.brokenOn
        ? [
            flag(
              input,
              `broken-${id}`,
              'check',
              cautions.broken,
              `Broken on ${plainDate(plan.history.brokenOn)}.`,
              about,
            ),
          ]
        : []),
      ...unread
        .slice(-1)
        .map((e) =>
          flag(
            input,
            `unread-adjustment-${id}`,
            'note',
            cautions.unreadAdjustment,
            `Adjusted on ${plainDate(e.date)}.`,
            about,
          ),
        ),
    ];
  });
}
