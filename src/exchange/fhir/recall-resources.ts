import type { Period, RiskAssessment, ServiceRequest } from 'fhir/r4.js';
import type { DeviceForecast } from '../../forecast/contract.js';
import type { RecallEntry, RecallList } from '../../recall/contract.js';
import type { IsoDate } from '../../records/dates.js';
import { OWN, ownConcept } from './codes.js';
import { fhirId } from './extensions.js';
import { reference } from './to-fhir.js';

const ACTION_TEXT: Readonly<Record<RecallEntry['action'], string>> = {
  cast: 'Cast or scan for the next orthosis',
  measure: 'Measure and check fit',
  'review-wear': 'Review wear and fit',
  'urgent-contact': 'Contact the family today',
  adjust: 'Adjust the orthosis',
};

/**
 * The recall plan as FHIR R4: a ServiceRequest (intent 'plan', not an order) an entry, and a RiskAssessment a forecast
 * with the dates by which the chance of being outgrown reaches 10, 50 and 90 %. For planning; never a diagnosis.
 */
export function recallResources(recall: RecallList, today: IsoDate): (ServiceRequest | RiskAssessment)[] {
  const entries = [...recall.entries, ...recall.cannotForecast];
  return entries.flatMap((entry) => [
    serviceRequest(entry, recall.month, today),
    ...entry.forecasts.filter((f) => f.p10 !== null).map(riskAssessment),
  ]);
}

function serviceRequest(e: RecallEntry, month: string, today: IsoDate): ServiceRequest {
  return {
    resourceType: 'ServiceRequest',
    id: fhirId(`recall ${month} ${e.childId} ${e.action} ${e.deviceIds.join(' ')}`),
    status: 'active',
    intent: 'plan',
    priority: e.action === 'urgent-contact' ? 'stat' : e.overdue ? 'urgent' : 'routine',
    subject: reference('Patient', e.childId),
    code: ownConcept(OWN.action, e.action, ACTION_TEXT[e.action]),
    ...(e.latestSafe ? { occurrencePeriod: period(e.worthIt, e.latestSafe) } : {}),
    authoredOn: today,
    patientInstruction: e.reason,
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

/** A start after its end (worth casting only when it is late already) is left out. */
function period(start: IsoDate | null, end: IsoDate): Period {
  return start !== null && start <= end ? { start, end } : { end };
}
