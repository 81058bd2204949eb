/** What the repositories take and give, one file a subject. */
export * from './contract/actor.js';
export * from './contract/caseload.js';
export * from './contract/children.js';
export * from './contract/clinic-settings.js';
export * from './contract/devices.js';
export * from './contract/family.js';
export * from './contract/forecasts.js';
export * from './contract/imports.js';
export * from './contract/people.js';
export * from './contract/readings.js';
export * from './contract/recall.js';
export * from './contract/settings.js';
export * from './contract/work.js';
