import type { MutationGroup } from '../mutation.js';
import { app } from './app.js';
import { charts } from './charts.js';
import { commands } from './commands.js';
import { controls } from './controls.js';
import { exchangeCsv } from './exchange-csv.js';
import { exchangeFhir } from './exchange-fhir.js';
import { exchangeIcalendar } from './exchange-icalendar.js';
import { exchangeSheets } from './exchange-sheets.js';
import { exchangeXlsx } from './exchange-xlsx.js';
import { forecast } from './forecast.js';
import { forecastDevice } from './forecast-device.js';
import { forecastFlags } from './forecast-flags.js';
import { forecastNotes } from './forecast-notes.js';
import { forecastSuggestions } from './forecast-suggestions.js';
import { growth } from './growth.js';
import { pages } from './pages.js';
import { recall } from './recall.js';
import { recallDecide } from './recall-decide.js';
import { recallLevel } from './recall-level.js';
import { records } from './records.js';
import { rules } from './rules.js';
import { service } from './service.js';
import { store } from './store.js';
import { storeContract } from './store-contract.js';
import { storeMigrations } from './store-migrations.js';
import { storePeople } from './store-people.js';
import { storeRecords } from './store-records.js';
import { storeWork } from './store-work.js';
import { turnaround } from './turnaround.js';
import { words } from './words.js';

/** By the room of `src` that the broken line stands in; and of each hazard the proof that its control names. */
export const lists: Readonly<Record<string, readonly MutationGroup[]>> = {
  controls,
  app,
  charts,
  commands,
  exchangeCsv,
  exchangeFhir,
  exchangeIcalendar,
  exchangeSheets,
  exchangeXlsx,
  forecast,
  forecastDevice,
  forecastFlags,
  forecastNotes,
  forecastSuggestions,
  growth,
  pages,
  recall,
  recallDecide,
  recallLevel,
  records,
  rules,
  service,
  store,
  storeContract,
  storeMigrations,
  storePeople,
  storeRecords,
  storeWork,
  turnaround,
  words,
};

export const mutations: readonly MutationGroup[] = Object.values(lists).flat();
