import { addDaysIso, type IsoDate } from '../../records/dates.js';
import { decidingRoom } from './check-figure.js';
import type { DeviceFacts } from './device-facts.js';

/** From this chance that the visit finds it needed a cast is planned. */
export const PLAIN = 0.8;
/** From this chance that the visit finds it needed a look with the deciding figure is planned. */
const WORTH_A_LOOK = 0.2;
/** A fortnight more or less is no matter. */
export const SAME_DAYS = 14;

/** It falls due within the list's weeks or is past, and may well be found needed. */
export const castIsDue = ({ castBy, until, neededAtVisit }: DeviceFacts): boolean =>
  castBy !== null && castBy <= until && (neededAtVisit ?? 0) >= WORTH_A_LOOK;

/**
 * Is it cast without being looked at first? Where the readings as they stand leave next to nothing, or where at an even chance
 * it should be begun by now and a visit would find the cast needed. What rests on a look older than the usual review is looked
 * at first, unless it is all but sure.
 */
export function isPlain(facts: DeviceFacts): boolean {
  const { castBy, evenCastBy, today, neededAtVisit } = facts;
  if (!isKnown(facts) || readingsLeaveRoom(facts) || barsNotRecorded(facts)) return false;
  if (saidOtherwise(facts)) return false;
  if (readingsLeaveNone(facts)) return true;
  if (castBy === null || evenCastBy === null) return false;
  const near = evenCastBy <= today || evenCastBy <= addDaysIso(castBy, SAME_DAYS);
  return near && (neededAtVisit ?? 0) >= PLAIN;
}

/** Bars of this family can be let out, and nobody recorded whether these have travel: seen at the bench, not cast unseen. */
export const barsNotRecorded = ({ rule, device, forecast }: DeviceFacts): boolean => {
  const measure = forecast && decidingRoom(forecast)?.series.measure;
  if (!measure || device.extensionRangeMm[measure] !== undefined) return false;
  const dimension = rule?.dimensions.find((d) => d.measure === measure);
  return dimension?.adjustments.some((a) => a.kind === 'side-bar') ?? false;
};

/** A reviewer who found it to fit after the readings outweighs them. */
const readAfterVerdict = ({ plainRoom, forecast }: DeviceFacts): boolean =>
  plainRoom !== null && saidToFit(forecast) < plainRoom.date;

/** The readings as they stand leave next to nothing by the time a new one could be fitted: within one SD of the limit. */
const nothingLeft = ({ plainRoom }: DeviceFacts): boolean =>
  plainRoom !== null && plainRoom.leftMm <= plainRoom.toleranceMm;

/** A reviewer found it to fit, though the readings by then had used up the room: looked at first. */
export const saidOtherwise = (facts: DeviceFacts): boolean => nothingLeft(facts) && !readAfterVerdict(facts);

export const readingsLeaveNone = (facts: DeviceFacts): boolean =>
  facts.forecast?.outcome === 'forecast' && nothingLeft(facts) && readAfterVerdict(facts);

/** They leave room even then, though more growth is expected than was read. */
export const readingsLeaveRoom = (facts: DeviceFacts): boolean =>
  facts.plainRoom !== null && !nothingLeft(facts);

/** Looked at within the usual review interval, or so far beyond use that no look is needed to say so. */
export const isKnown = ({ reviewBy, today, chanceToday }: DeviceFacts): boolean =>
  reviewBy >= today || (chanceToday ?? 0) >= PLAIN;

/** Day on which the last reviewer found that it fits; '' where nobody did. */
export const saidToFit = (forecast: DeviceFacts['forecast']): IsoDate | '' => {
  const said = forecast?.lastVerdict;
  return said?.verdict === 'good' || said?.verdict === 'loose' ? said.date : '';
};

/** Day on which the last reviewer found it tight. */
export const saidTight = ({ forecast }: DeviceFacts): IsoDate | null =>
  forecast?.lastVerdict?.verdict === 'tight' ? forecast.lastVerdict.date : null;
