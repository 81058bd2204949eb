import type { ClinicSettings } from '../shapes.js';

/** What holds until a clinic says otherwise; figures are common practice, no source. */
export const defaultSettings: ClinicSettings = {
  clinicName: '',
  contact: '',
  acceptedChance: 1 / 3,
  harmInsensate: 3,
  eligibleAfterMonths: {},
  castingSlotsPerWeek: 12,
  clinicians: [],
  workshop: [],
  workshopClosures: [],
  holidays: [],
  closures: [],
  language: 'en',
};
