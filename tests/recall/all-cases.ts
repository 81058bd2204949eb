export { practitionerCases } from './practitioner-cases.js';
export { secondCases } from './second-cases.js';
export { thirdCases } from './third-cases.js';
