import type { ClinicSettings } from '../contract.js';

/** What holds until a clinic says otherwise; tolerances are common practice, no source. */
export const defaultSettings: ClinicSettings = {
  clinicName: '',
  contact: '',
  riskTolerance: 0.1,
  riskToleranceInsensate: 0.05,
  castingSlotsPerWeek: 12,
  clinicians: [],
  workshop: [],
  workshopClosures: [],
  holidays: [],
  closures: [],
  language: 'en',
};
