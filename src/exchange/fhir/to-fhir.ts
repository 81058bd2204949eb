import type {
  AllergyIntolerance,
  Bundle,
  CodeableConcept,
  Condition,
  DeviceUseStatement,
  Device as FhirDevice,
  FhirResource,
  Observation,
  Patient,
  Quantity,
  Task,
} from 'fhir/r4.js';
import type { Caseload } from '../../records/caseload.js';
import { type Device, type DeviceEvent, stageIds, type WorkshopJob } from '../../records/device.js';
import { measures, type Side } from '../../records/measure.js';
import { avoidsLatex, type Child, type MaturityMarker, type Measurement } from '../../records/records.js';
import type { SkinCheck } from '../../records/skin-check.js';
import { conditionNames } from '../../words/condition-names.js';
import { deviceSizes } from '../csv/device-size-heading.js';
import { isVitalSign, measureConcept, OWN, ownConcept, UCUM } from './codes.js';
import { fhirId, identity, mapExtension, ownExtension, ownExtensions } from './extensions.js';

/** Base of the addresses in a bundle; '.invalid' is reserved, so that nobody looks there (RFC 2606). */
const BASE = 'http://doorpost.invalid/fhir';

/** A caseload as FHIR R4 resources, in order of reference. `readFhirFile` gives the same caseload back. */
export function toFhirResources(caseload: Caseload): FhirResource[] {
  const childOf = new Map(caseload.devices.map((device) => [device.id, device.childId]));
  const resources: FhirResource[] = [
    ...caseload.children.flatMap((child) => [patient(child), ...conditions(child), ...latex(child)]),
    ...caseload.measurements.map(measurementObservation),
    ...caseload.markers.map(markerObservation),
    ...caseload.devices.flatMap((device) => [deviceResource(device), deviceUse(device)]),
    ...caseload.events.map((event) => eventObservation(event, childOf.get(event.deviceId))),
    ...caseload.skinChecks.map(skinObservation),
    ...caseload.jobs.map((job) => jobTask(job, childOf.get(job.deviceId))),
  ];
  return resources.map(withoutEmptyLists);
}

/** FHIR's JSON has no empty lists. */
function withoutEmptyLists(resource: FhirResource): FhirResource {
  const filled = Object.entries(resource).filter(
    ([, value]) => !(Array.isArray(value) && value.length === 0),
  );
  return Object.fromEntries(filled) as unknown as FhirResource;
}

export function toFhirBundle(resources: readonly FhirResource[]): Bundle {
  const entry = resources.map((resource) => ({
    fullUrl: `${BASE}/${resource.resourceType}/${resource.id}`,
    resource,
  }));
  return { resourceType: 'Bundle', type: 'collection', entry };
}

export const reference = (type: 'Patient' | 'Device', ownId: string) => ({
  reference: `${type}/${fhirId(ownId)}`,
});

function patient(c: Child): Patient {
  return {
    resourceType: 'Patient',
    ...identity('child', c.id),
    active: c.status === 'active',
    ...(c.name ? { name: [{ text: c.name }] } : {}),
    gender: c.sex,
    birthDate: c.birthDate,
    ...(c.status === 'died' ? { deceasedBoolean: true } : {}),
    communication: [
      { language: { coding: [{ system: 'urn:ietf:bcp:47', code: c.language }] }, preferred: true },
    ],
    extension: [
      ...ownExtensions('children', c),
      ...ownExtension('transport-days', c.transportDays.join(' ')),
      ...mapExtension('column', c.extra),
    ],
  };
}

function conditions(c: Child): Condition[] {
  return c.conditions.map((condition, index) => ({
    resourceType: 'Condition',
    id: fhirId(`${c.id}-condition-${index + 1}`),
    clinicalStatus: codedStatus('condition-clinical', 'active'),
    subject: reference('Patient', c.id),
    code: ownConcept(OWN.condition, condition, conditionNames[condition]),
  }));
}

/** Nobody has seen an allergy where only the diagnosis says to keep latex away: the reader is told that it is not confirmed. */
function latex(c: Child): AllergyIntolerance[] {
  if (!avoidsLatex(c)) return [];
  return [
    {
      resourceType: 'AllergyIntolerance',
      id: fhirId(`${c.id}-latex`),
      clinicalStatus: codedStatus('allergyintolerance-clinical', 'active'),
      ...(c.latexAlert
        ? {}
        : {
            verificationStatus: codedStatus('allergyintolerance-verification', 'unconfirmed'),
            extension: ownExtension('latex-by-diagnosis', true),
          }),
      patient: reference('Patient', c.id),
      criticality: 'high',
      code: { text: 'Natural rubber latex' },
    },
  ];
}

const codedStatus = (system: string, code: string) => ({
  coding: [{ system: `http://terminology.hl7.org/CodeSystem/${system}`, code }],
});

/** What many kinds of records have in common, where they have it. */
interface Observed {
  readonly id: string;
  readonly date: string;
  readonly childId?: string;
  readonly deviceId?: string | null;
  readonly side?: Side | null;
  readonly observer?: string;
  readonly note?: string;
}

function observation(
  kind: string,
  { id, date, childId, deviceId, side, observer, note }: Observed,
  code: CodeableConcept,
  more: Partial<Observation>,
): Observation {
  return {
    resourceType: 'Observation',
    ...identity(kind, id),
    status: 'final',
    code,
    ...(childId ? { subject: reference('Patient', childId) } : {}),
    ...(deviceId ? { device: reference('Device', deviceId) } : {}),
    effectiveDateTime: date,
    ...(side ? { bodySite: sideConcept(side) } : {}),
    ...(observer ? { performer: [{ display: observer }] } : {}),
    ...(note ? { note: [{ text: note }] } : {}),
    ...more,
  };
}

const VITAL_SIGNS = {
  coding: [{ system: 'http://terminology.hl7.org/CodeSystem/observation-category', code: 'vital-signs' }],
};

function measurementObservation(m: Measurement): Observation {
  const { sided, landmark } = measures[m.measure];
  return observation('measurement', { ...m, side: sided ? m.side : null }, measureConcept(m.measure), {
    ...(isVitalSign(m.measure) ? { category: [VITAL_SIGNS] } : {}),
    valueQuantity: quantity(m),
    ...(m.method ? { method: { text: m.method } } : {}),
    extension: [
      ...ownExtension('landmark', landmark),
      ...ownExtensions('measurements', m),
      ...mapExtension('column', m.extra),
    ],
  });
}

function sideConcept(side: Side | Device['side']) {
  return ownConcept(OWN.side, side, side === 'both' ? 'left and right' : side);
}

function quantity({ measure, value }: Measurement): Quantity {
  if (measures[measure].unit === 'kg') return { value, unit: 'kg', system: UCUM, code: 'kg' };
  if (!isVitalSign(measure)) return { value, unit: 'mm', system: UCUM, code: 'mm' };
  // The decimal point is moved in the text, so that 1234.5 mm is 123.45 cm and nothing near it.
  return { value: Number(`${value}e-1`), unit: 'cm', system: UCUM, code: 'cm' };
}

const markerObservation = (k: MaturityMarker): Observation =>
  observation('marker', k, ownConcept(OWN.marker, k.kind), {
    valueQuantity: { value: k.value },
    extension: ownExtensions('markers', k),
  });

function deviceResource(d: Device): FhirDevice {
  return {
    resourceType: 'Device',
    ...identity('device', d.id),
    status: d.status === 'retired' ? 'inactive' : 'active',
    type: ownConcept(OWN.family, d.family),
    patient: reference('Patient', d.childId),
    extension: [
      ...ownExtensions('devices', d),
      ...Object.entries(deviceSizes).flatMap(([size, field]) => mapExtension(`${size}-mm`, d[field])),
      ...mapExtension('column', d.extra),
    ],
  };
}

/** DeviceUseStatement has maturity 0 in R4 and became DeviceUsage in R5; it is what R4 has. */
function deviceUse(d: Device): DeviceUseStatement {
  const status = ({ ordered: 'intended', worn: 'active', retired: 'completed' } as const)[d.status];
  return {
    resourceType: 'DeviceUseStatement',
    id: fhirId(`${d.id}-use`),
    status,
    subject: reference('Patient', d.childId),
    device: reference('Device', d.id),
    bodySite: sideConcept(d.side),
    ...(d.fittedDate ? { timingPeriod: { start: d.fittedDate } } : {}),
  };
}

/** What the skin looked like; the code is what was found. */
const skinObservation = (s: SkinCheck): Observation =>
  observation('skin-check', s, ownConcept(OWN.skin, s.state), { extension: ownExtensions('skin', s) });

const eventObservation = (e: DeviceEvent, childId: string | undefined): Observation =>
  observation('event', { ...e, childId }, ownConcept(OWN.event, e.kind), {
    ...(e.verdict ? { valueString: e.verdict } : {}),
    extension: ownExtensions('events', e),
  });

function jobTask(j: WorkshopJob, childId: string | undefined): Task {
  return {
    resourceType: 'Task',
    ...identity('job', j.id),
    intent: 'order',
    status: ({ 'in-progress': 'in-progress', fitted: 'completed', cancelled: 'cancelled' } as const)[
      j.status
    ],
    focus: reference('Device', j.deviceId),
    ...(childId === undefined ? {} : { for: reference('Patient', childId) }),
    code: ownConcept(OWN.family, j.family),
    output: stageIds.flatMap((stage) => {
      const date = j.stages[stage];
      return date === undefined ? [] : [{ type: ownConcept(OWN.stage, stage), valueDate: date }];
    }),
  };
}
