import type { CodeableConcept, Coding } from 'fhir/r4.js';
import { type MeasureId, measureIds, measures, type Side } from '../../records/measure.js';
import { ownValue } from '../own-value.js';
import type { Concept } from './r4-schemas.js';

export const LOINC = 'http://loinc.org';
export const UCUM = 'http://unitsofmeasure.org';
/**
 * Code systems of our own, for what has no standard code (foot, joint-height, segment and most girth measures, device
 * families, fit verdicts, workshop stages). A receiver that does not know them still has the text beside each.
 */
export const OWN = {
  measure: 'urn:doorpost:code-system:measure',
  marker: 'urn:doorpost:code-system:maturity-marker',
  condition: 'urn:doorpost:code-system:condition',
  family: 'urn:doorpost:code-system:device-family',
  event: 'urn:doorpost:code-system:device-event',
  skin: 'urn:doorpost:code-system:skin-check',
  stage: 'urn:doorpost:code-system:workshop-stage',
  side: 'urn:doorpost:code-system:side',
} as const;
export const OWN_EXTENSION = 'urn:doorpost:extension:';
/** Identifiers carry our own ids whole; a FHIR resource id allows fewer characters. */
export const OWN_ID = 'urn:doorpost:id:';

/**
 * LOINC codes by measure; the first is written, all are read. Codes and names as in HL7's vital-signs profiles
 * (hl7.org/fhir/R4/observation-vitalsigns.html, hl7.org/fhir/us/vitals); 8280-0 as named by LOINC 2.82 is taken at the
 * navel, ours at the least girth: our own code with its landmark is written beside it.
 */
const LOINC_CODES: Readonly<
  Partial<Record<MeasureId, readonly (readonly [code: string, display: string])[]>>
> = {
  stature: [
    ['8302-2', 'Body height'],
    ['8308-9', 'Body height --standing'],
    ['8306-3', 'Body height --lying'],
    ['3137-7', 'Body height Measured'],
  ],
  weight: [['29463-7', 'Body weight']],
  head_circumference: [
    ['9843-4', 'Head Occipital-frontal circumference'],
    ['8287-5', 'Head Occipital-frontal circumference by Tape measure'],
  ],
  waist_girth: [['8280-0', 'Waist Circumference at umbilicus by Tape measure']],
};

/** Measures of the R4 vital-signs profiles, which require cm (kg for weight). */
export const isVitalSign = (id: MeasureId): boolean => LOINC_CODES[id] !== undefined;

export function measureConcept(id: MeasureId): CodeableConcept {
  const own: Coding = { system: OWN.measure, code: id, display: measures[id].label };
  const loinc = LOINC_CODES[id]?.[0];
  const coding = loinc ? [{ system: LOINC, code: loinc[0], display: loinc[1] }, own] : [own];
  return { coding, text: measures[id].label };
}

export function measureOfConcept(concept: Concept | undefined): MeasureId | null {
  for (const { system, code } of concept?.coding ?? []) {
    const own = system === OWN.measure ? measureIds.find((id) => id === code) : undefined;
    if (own !== undefined) return own;
    if (system !== LOINC) continue;
    for (const [id, codes] of Object.entries(LOINC_CODES)) {
      if (codes.some(([loinc]) => loinc === code)) return id as MeasureId;
    }
  }
  return null;
}

/** The code of one system in a concept, or null. */
export function codeOf(concept: Concept | undefined, system: string): string | null {
  return concept?.coding?.find((coding) => coding.system === system)?.code ?? null;
}

export function ownConcept(system: string, code: string, text = code): CodeableConcept {
  return { coding: [{ system, code }], text };
}

/** SNOMED CT laterality qualifiers 7771000 |Left| and 24028007 |Right| are read; from memory. */
const SIDE_QUALIFIERS: Readonly<Record<string, Side>> = { '7771000': 'left', '24028007': 'right' };

/** Side out of a body site: our code, a laterality qualifier, or the words left and right in its text. */
export function sideOfBodySite(concept: Concept | undefined): string | null {
  const own = codeOf(concept, OWN.side);
  if (own !== null) return own;
  for (const { code } of concept?.coding ?? []) {
    const side = ownValue(SIDE_QUALIFIERS, code);
    if (side !== undefined) return side;
  }
  const texts = [concept?.text, ...(concept?.coding ?? []).map((coding) => coding.display)]
    .join(' ')
    .toLowerCase();
  const [left, right] = [/\bleft\b/.test(texts), /\bright\b/.test(texts)];
  if (left && right) return 'both';
  if (left) return 'left';
  return right ? 'right' : null;
}
