/**
 * Cautions where a person acts: usual practice, never a diagnosis, always with whom to ask.
 * Sources: redness 20-30 min, wear-in: health-board leaflets (NHS Fife, NHS North Tees), read as excerpts; latex in spina
 * bifida: very high risk, glossary page; head: EBM Guidelines, excerpt; hips in cerebral palsy: Swedish cohort,
 * abstract; the rest common practice, no source.
 */
import { populationChartsMislead } from '../growth/population/condition-effects.js';
import { weeksCorrectedFor } from '../records/age.js';
import type { ChildRecord } from '../records/caseload.js';
import type { IsoDate } from '../records/dates.js';
import { avoidsLatex } from '../records/records.js';
import type { Flag } from './contract.js';

type Caution = Pick<Flag, 'title' | 'caution' | 'askWhom'>;

export const cautions = {
  skin: {
    title: 'Skin comes before any date',
    caution:
      'Stop wearing it and contact the clinic if redness has not faded after 20-30 minutes, or for swelling, pain, rash, a blister or a broken part. Do not wait for the forecast when it hurts or the skin looks wrong.',
    askWhom: 'the orthotist, the same day',
  },
  insensate: {
    title: 'Skin that cannot warn',
    caution:
      'Pain is no warning here: look at the skin twice a day and after every wear. Reviews are shorter, at most every 3 months; a forecast never justifies waiting. A warm, swollen, painless limb may be broken.',
    askWhom: 'the orthotist; a warm swollen limb: emergency care the same day',
  },
  latex: {
    title: 'Latex alert',
    caution: 'No latex in straps, padding, gloves or casting material; write it on the workshop slip.',
    askWhom: 'the prescriber or the allergy team',
  },
  hips: {
    title: 'Hips are followed by X-ray, not by growth',
    caution:
      'Keep to the national hip surveillance programme; a leg that looks shorter may be a hip that is moving. This forecast replaces no radiograph.',
    askWhom: 'the orthopaedic team',
  },
  unsuitableReference: {
    title: 'Population charts do not describe this child',
    caution:
      'Growth charts of the general population are only a backdrop here; stop ages of growth may differ. Trust the child’s own readings and review at the shorter interval.',
    askWhom: 'the child’s specialist team',
  },
  headGrowth: {
    title: 'Head size is crossing centiles',
    caution:
      'Measure the head again now, without delaying anything. With vomiting, drowsiness, a bulging soft spot, eyes turned down or a seizure: emergency care at once. The helmet forecast is stopped until a doctor has looked.',
    askWhom: 'the child’s doctor today; with a shunt, the neurosurgical team',
  },
  headFlat: {
    title: 'Head size is falling behind',
    caution:
      'Measure again. Slow or flat head growth, or a ridge along a suture, should be looked at before the helmet goes on; the helmet forecast is stopped until then. Check that the helmet is not tight.',
    askWhom: 'the child’s doctor, within days',
  },
  fallingZ: {
    title: 'Growth is falling behind',
    caution:
      'Measure again first. A lasting fall is not explained by the device; in the teens a later or earlier growth spurt can look like this.',
    askWhom: 'the child’s doctor',
  },
  risingZ: {
    title: 'Growth has sped up',
    caution:
      'Measure again first. A growth spurt is the usual reason; early puberty, treatment or a released spinal cord are others. Review earlier than usual.',
    askWhom: 'the child’s doctor if puberty seems early or nothing explains it',
  },
  oneSide: {
    title: 'Left and right have drifted apart',
    caution:
      'Measure both sides again in one visit, leg length with blocks. A growing difference beyond measuring error is not plain growth: look at hips, feet and posture.',
    askWhom: 'the orthopaedic team',
  },
  gapWithinError: {
    title: 'The difference between the sides is within measuring error',
    caution:
      'No conclusion can be drawn yet: measure with blocks, both sides in one visit, and check the hips.',
    askWhom: 'the orthopaedic team if it is confirmed',
  },
  plateau: {
    title: 'No growth before the age at which it usually ends',
    caution:
      'Measure again first. If it is true, this is not a device question and not a reason to stop reviews.',
    askWhom: 'the child’s doctor',
  },
  trunkCurve: {
    title: 'The trunk is growing fast in a child with a spinal curve',
    caution:
      'Curves move with spinal growth: bring the spinal review forward and see the child every 3 months. Fit in the orthosis is judged by the team with a radiograph. Nothing here says bracing may stop.',
    askWhom: 'the spinal team',
  },
  mismatch: {
    title: 'Growth and fit do not agree',
    caution:
      'What reviewers saw is unlikely from the measurements: check the last readings, the device’s allowance and the cast date before trusting the date.',
    askWhom: 'the orthotist who reviewed it',
  },
  girths: {
    title: 'Girths are rising with weight',
    caution:
      'The device may become tight before it becomes short; look at straps, cuffs and skin. A limb that swells on its own may be a clot, a fracture or fluid.',
    askWhom: 'the orthotist; sudden swelling of one limb: a doctor the same day',
  },
  growthHormone: {
    title: 'Growth hormone: how fast is a guess',
    caution:
      'The forecast lets growth run faster for two years from the start, by how much only readings can tell; nobody checked it on treated children. Earlier readings count for less. Measure every 2-3 months until the new pace is known.',
    askWhom: 'the endocrine team',
  },
  stale: {
    title: 'Not measured for a long time',
    caution:
      'No date can be trusted. Put the child at the top of the contact list, by a second route if the first fails; after repeated missed visits follow the clinic’s was-not-brought pathway.',
    askWhom: 'the clinician in charge; safeguarding lead where the pathway says so',
  },
  skinNow: {
    title: 'Skin or pain under a device in use',
    caution:
      'Skin outranks every date: ring today, stop wear until seen, agree what to wear meanwhile; a hip orthosis comes off only if the hip team says so. If funding is not due yet, ask for a clinical exception.',
    askWhom: 'the orthotist, the same day',
  },
  skinLook: {
    title: 'A mark on the skin, nobody said for how long',
    caution:
      'Ask how long it stays after the device comes off: more than 20 minutes is to be seen today. Look at it at the next contact.',
    askWhom: 'the orthotist',
  },
  longAgo: {
    title: 'Told of long ago, and nobody wrote what became of it',
    caution:
      'It was to be seen at once. Ring today and ask: what is still there or has come back is seen today, with the device off until then (a hip orthosis only if the hip team says so); what has passed is written down.',
    askWhom: 'the orthotist, the same day',
  },
  unclear: {
    title: 'A note that has to be read',
    caution:
      'A word that is not known here is said of a part of the body. Read the note and ask: whatever marks, hurts or does not feel is to be seen today.',
    askWhom: 'the orthotist',
  },
  feelingNow: {
    title: 'New numbness or tingling in a device',
    caution:
      'Take pressure off and see the child today. New numbness, weakness or change of continence may come from the nerve or the cord, not from the device.',
    askWhom: 'the orthotist the same day; a doctor if it does not pass at once',
  },
  hipNow: {
    title: 'A hip may be out of joint in its orthosis',
    caution:
      'Ring the hip team the same day: an orthosis that holds a hip out of joint harms it. It is set, worn on or taken off as they say.',
    askWhom: 'the hip team, the same day',
  },
  breathingNow: {
    title: 'Breathing or eating is harder in the orthosis',
    caution:
      'Open or take off the orthosis and see the child today; if breathing does not ease at once, or vomiting goes on: emergency care.',
    askWhom: 'the spinal team today; emergency care where it does not ease',
  },
  headNow: {
    title: 'Vomiting, drowsiness or a bulging soft spot',
    caution:
      'This is not a question of fit: emergency care at once. The helmet stays off until a doctor has looked.',
    askWhom: 'emergency care; with a shunt, the neurosurgical team',
  },
  functionNow: {
    title: 'A skill was lost or strength has gone',
    caution:
      'A loss of function is not growth: have the child seen by a doctor before anything is cast. With spina bifida think of the cord and the shunt.',
    askWhom: 'the child’s doctor or specialist team, the same day',
  },
  fitChanged: {
    title: 'The fit, or what it must fit, may have changed',
    caution:
      'Toes over an edge, a strap on its last hole or a heel that does not seat are looked at before any date. Surgery, toxin, serial casting, tone or a contracture change shape and position, which no forecast of growth knows: look at the fit, and agree with the treating team when to cast.',
    askWhom: 'the orthotist, with the team that treats the limb or the spine',
  },
  falls: {
    title: 'More falls',
    caution: 'Look at fit, shoes and strength together; a loss of skill is for a doctor.',
    askWhom: 'the orthotist and the physiotherapist',
  },
  uncurved: {
    title: 'Room used up in a dimension without a growth curve',
    caution: 'Nothing is forecast here. Look at the place and adjust it; check the skin.',
    askWhom: 'the orthotist',
  },
  raise: {
    title: 'How high should the raise be?',
    caution:
      'A question for the clinician, not a figure from here: measure with blocks, both sides in one visit, and look at the hips. A difference smaller than its measuring error says nothing.',
    askWhom: 'the orthotist with the orthopaedic team',
  },
  broken: {
    title: 'Broken and not replaced',
    caution: 'Repair or replace: growth does not decide here. Stop wear where an edge or joint is broken.',
    askWhom: 'the orthotist',
  },
  asymmetry: {
    title: 'Head shape',
    caution:
      'Compare only with figures taken the same way; a change smaller than measuring error is no change.',
    askWhom: 'the cranial clinic',
  },
  headBasis: {
    title: 'Head growth is forecast from print alone',
    caution:
      'No child’s head was followed over time in what the forecast was made from: it is the published curve with a band made wide on purpose. Measure the head every 2-3 weeks while it grows fast; the readings decide, not the date.',
    askWhom: 'the cranial clinic',
  },
  preterm: {
    title: 'Born early: corrected age',
    caution:
      'Growth is read at the age from the due date until two years of age; both ages are shown. Catch-up growth can be quick.',
    askWhom: 'the child’s doctor',
  },
  unreadAdjustment: {
    title: 'An adjustment without its amount',
    caution:
      'It could not be counted: enter the dimension and how many millimetres it gained, or the date stays too early.',
    askWhom: 'the orthotist who adjusted it',
  },
} as const satisfies Record<string, Caution>;

/** Cautions that stand whatever was measured: skin for everyone who wears something, and what the record says. */
export function standingCautions({ child, devices }: ChildRecord, today: IsoDate): Flag[] {
  const worn = devices.some((d) => d.status === 'worn');
  const make = (id: string, caution: Caution, seen: string, severity: Flag['severity'] = 'note'): Flag => ({
    id: `standing-${id}`,
    childId: child.id,
    severity,
    seen,
    series: null,
    deviceId: null,
    ...caution,
  });
  const early = weeksCorrectedFor(child, today) !== null;
  return [
    ...(worn ? [make('skin', cautions.skin, 'A device is being worn.')] : []),
    ...(child.insensateSkin
      ? [make('insensate-skin', cautions.insensate, 'The record says the skin cannot feel.', 'check')]
      : []),
    ...(avoidsLatex(child)
      ? [
          make(
            'latex',
            cautions.latex,
            child.latexAlert
              ? 'The record carries a latex alert.'
              : 'Spina bifida: very high risk of latex allergy.',
            'check',
          ),
        ]
      : []),
    ...(child.conditions.includes('cerebral-palsy')
      ? [make('hips', cautions.hips, 'Cerebral palsy is recorded.')]
      : []),
    ...(populationChartsMislead(child.conditions)
      ? [make('reference', cautions.unsuitableReference, 'A recorded condition changes growth.')]
      : []),
    ...(early ? [make('corrected-age', cautions.preterm, `Born at ${child.gestationWeeks} weeks.`)] : []),
  ];
}
