import type { RecallSettingsInput } from '../recall/decide/recall-settings.js';
import type { ClinicSettings } from '../store/contract.js';

/** The clinic's settings as the recall room reads them. */
export const recallSettingsOf = (settings: ClinicSettings): RecallSettingsInput => ({
  acceptedChance: settings.acceptedChance,
  harmInsensate: settings.harmInsensate,
  eligibleAfterMonths: settings.eligibleAfterMonths,
});
