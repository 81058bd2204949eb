import type { RiskAssessment, ServiceRequest } from 'fhir/r4.js';
import type { DeviceForecast } from '../../forecast/contract.js';
import type { Action, RecallEntry, RecallList } from '../../recall/contract.js';
import type { IsoDate } from '../../records/dates.js';
import { OWN, ownConcept } from './codes.js';
import { fhirId } from './extensions.js';
import { reference } from './to-fhir.js';

const ACTION_TEXT: Readonly<Record<Action, string>> = {
  'see-now': 'See today or the next working day',
  repair: 'Repair or replace the orthosis',
  measure: 'Measure and check fit',
  adjust: 'Adjust the orthosis',
  'renew-part': 'Renew a part of the orthosis',
  cast: 'Cast or scan for the next orthosis',
  check: 'Check fit, cast or scan for the next orthosis if needed',
  review: 'Review fit, wear and skin',
  none: 'Nothing due',
};

/**
 * The recall plan as FHIR R4: a ServiceRequest (intent 'plan', not an order) an entry, and a RiskAssessment a forecast
 * with the dates by which the chance of being beyond use reaches 10, 50 and 90 %. For planning; never a diagnosis.
 */
export function recallResources(recall: RecallList, today: IsoDate): (ServiceRequest | RiskAssessment)[] {
  return recall.entries.flatMap((entry) => [
    serviceRequest(entry, today),
    ...entry.devices.flatMap(({ forecast }) => (forecast?.p10 ? [riskAssessment(forecast)] : [])),
  ]);
}

function serviceRequest(e: RecallEntry, today: IsoDate): ServiceRequest {
  const atOnce = e.action === 'see-now' || e.action === 'repair';
  const soon = e.late || e.tooLateSince || e.beyondUseSince ? 'urgent' : 'routine';
  return {
    resourceType: 'ServiceRequest',
    id: fhirId(`recall ${e.childId} ${e.action} ${e.deviceIds.join(' ')}`),
    status: 'active',
    intent: 'plan',
    priority: atOnce ? 'stat' : soon,
    subject: reference('Patient', e.childId),
    code: ownConcept(OWN.action, e.action, ACTION_TEXT[e.action]),
    ...(e.dueBy ? { occurrencePeriod: { end: e.dueBy } } : {}),
    authoredOn: today,
    ...(e.reason.text ? { patientInstruction: e.reason.text } : {}),
    supportingInfo: e.deviceIds.map((id) => reference('Device', id)),
  };
}

function riskAssessment(f: DeviceForecast): RiskAssessment {
  const at = [
    [0.1, f.p10],
    [0.5, f.p50],
    [0.9, f.p90],
  ] as const;
  return {
    resourceType: 'RiskAssessment',
    id: fhirId(`outgrown ${f.deviceId} ${f.today}`),
    status: 'preliminary',
    subject: reference('Patient', f.childId),
    occurrenceDateTime: f.today,
    method: { text: `doorpost growth model ${f.modelName} ${f.modelVersion}` },
    basis: [reference('Device', f.deviceId)],
    prediction: at.flatMap(([probabilityDecimal, end]) =>
      end === null ? [] : [{ outcome: { text: 'Device outgrown' }, probabilityDecimal, whenPeriod: { end } }],
    ),
    note: [{ text: f.explanation }],
  };
}
