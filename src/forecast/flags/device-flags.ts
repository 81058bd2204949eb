import { cautions } from '../cautions.js';
import type { Flag } from '../contract.js';
import { plainDate } from '../words.js';
import { type FlagInput, flag } from './flag-input.js';

/** A verdict this improbable before it was given does not fit the measurements. */
const SURPRISE = 0.05;
/** What a device's own events say that growth does not: verdicts against growth, breakage, lost amounts. */
export function deviceFlags(input: FlagInput): Flag[] {
  return input.plans.flatMap((plan) => {
    const { id } = plan.device;
    const about = { deviceId: id };
    const surprised = (input.answers.get(id)?.surprise ?? []).filter((s) => s.likelihood < SURPRISE);
    const unplaced = plan.history.since.findLast((e) => e.kind === 'adjusted' && e.measure === null);
    const unread = [unplaced?.date, plan.history.amountUnknownOn].flatMap((day) => day ?? []).sort();
    return [
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
        .map((on) =>
          flag(
            input,
            `unread-adjustment-${id}`,
            'note',
            cautions.unreadAdjustment,
            `Adjusted on ${plainDate(on)}.`,
            about,
          ),
        ),
    ];
  });
}
