import fc from 'fast-check';
import { expect, it } from 'vitest';
import { levelledClinicList } from '../../src/clinic/clinic-list.js';
import { demoClinic } from '../../src/demo/demo-clinic.js';
import { assessChild } from '../../src/forecast/assess-child.js';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import { type ChildRecord, groupByChild } from '../../src/records/caseload.js';
import { addDaysIso, isIsoDate } from '../../src/records/dates.js';
import { deviceEventRecord } from '../../src/records/device.js';
import { skinCheckRecord } from '../../src/records/skin-check.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { anyCaseload, TODAY as today } from '../exchange/caseload-arbitrary.js';

// What holds of every clinic, whatever is in its records: the clinic's own rules, no outside source.
const rules = loadRules();
const context = { today, model: loadGrowthModel(), rules, seed: 1, draws: 100 };

/** What befalls a child of the invented clinic: its family moves, it dies, its skin opens, somebody judges a device. */
const fates = [
  'none',
  'none',
  'moved-away',
  'died',
  'discharged',
  'open',
  'outgrown',
  'good',
  'broken',
] as const;

function befall(record: ChildRecord, fate: (typeof fates)[number]): ChildRecord {
  const { child, devices } = record;
  const worn = devices.find((d) => d.status === 'worn' && d.fittedDate !== null && d.fittedDate < today);
  if (fate === 'moved-away' || fate === 'died' || fate === 'discharged')
    return { ...record, child: { ...child, status: fate } };
  if (fate === 'none' || worn === undefined) return record;
  const about = { id: `${child.id}-fate`, deviceId: worn.id, date: addDaysIso(today, -1) };
  if (fate === 'open') {
    const wound = skinCheckRecord.parse({ ...about, childId: child.id, state: 'open' });
    return { ...record, skinChecks: [...record.skinChecks, wound] };
  }
  const said = fate === 'broken' ? { kind: 'broken' } : { kind: 'verdict', verdict: fate };
  return { ...record, events: [...record.events, deviceEventRecord.parse({ ...about, ...said })] };
}

/** A realistic clinic with a fate for each child, and beside it children whose records can hold anything that may be entered. */
const clinics = fc
  .record({
    seed: fc.integer({ min: 1, max: 1e6 }),
    fate: fc.array(fc.constantFrom(...fates), { minLength: 8, maxLength: 8 }),
    odd: anyCaseload,
    slotsPerWeek: fc.integer({ min: 1, max: 3 }),
  })
  .map(({ seed, fate, odd, slotsPerWeek }) => {
    const demo = groupByChild(demoClinic({ children: fate.length, seed, today }).caseload);
    const records = [...demo.map((record, i) => befall(record, fate[i])), ...groupByChild(odd)];
    return { records, slotsPerWeek };
  });

async function worked({ records, slotsPerWeek }: { records: readonly ChildRecord[]; slotsPerWeek: number }) {
  const assessments = records.map((record) => assessChild(record, context));
  const clinic = { clinicians: [{ id: 'clinic', slotsPerWeek }], workshop: [] };
  const answer = await levelledClinicList({ records, assessments, today, rules, clinic });
  return { assessments, ...answer };
}

it('of any small clinic: nobody is lost, what cannot wait comes first, nothing is asked for too late', async () => {
  await fc.assert(
    fc.asyncProperty(clinics, async (clinic) => {
      const { records } = clinic;
      const { list, decisions, assessments } = await worked(clinic);
      const everybody = [...list.entries, ...list.notDue];
      const active = records.filter((r) => r.child.status === 'active');
      expect(list.notPlanned).toEqual([]);
      expect(list.levelling.notLevelled).toBeUndefined();

      // Each active child with something worn or being made is in one list, once, and the calm ones have a day to be seen by.
      const listed = everybody.map((e) => e.childId);
      expect(new Set(listed).size).toBe(listed.length);
      const inUse = active.filter((r) =>
        r.devices.some(
          (d) =>
            d.status !== 'retired' &&
            d.castDate <= today &&
            !r.events.some((e) => e.kind === 'retired' && e.deviceId === d.id),
        ),
      );
      expect(listed).toEqual(expect.arrayContaining(inUse.map((r) => r.child.id)));
      for (const { reviewBy } of everybody) expect(isIsoDate(reviewBy)).toBe(true);

      // Who died, moved away or was discharged is on no list, of which calendar, letters and sheets are made.
      const gone = new Set(records.filter((r) => r.child.status !== 'active').map((r) => r.child.id));
      const named = [
        ...listed,
        ...list.inProgress.map((r) => r.childId),
        ...list.levelling.harmed.flatMap((h) => h.childIds),
      ];
      expect(named.filter((id) => gone.has(id))).toEqual([]);

      // An open wound is today's, before every cast, and in no later week.
      const flagged = assessments.filter(
        (a) => !gone.has(a.childId) && a.flags.some((f) => f.severity === 'act-now' && f.deviceId !== null),
      );
      const routine = list.entries.findIndex((e) => e.action !== 'see-now');
      for (const { childId } of flagged) {
        const at = list.entries.findIndex((e) => e.childId === childId);
        const { action, dueBy, plannedWeek } = list.entries[at] ?? {};
        expect([action, plannedWeek], childId).toEqual(['see-now', undefined]);
        expect(dueBy! <= today).toBe(true);
        if (routine >= 0) expect(at).toBeLessThan(routine);
      }

      // Nobody waits for an even chance of a device that no longer fits.
      for (const { castBy, forecast } of decisions.values())
        if (castBy !== null && forecast?.p50)
          expect(castBy <= forecast.p50, `${castBy} ${forecast.p50}`).toBe(true);
    }),
    { numRuns: 6, endOnFailure: true },
  );
}, 120_000);

it('the same clinic gives the same list to the last bit, in whatever order it is read', async () => {
  await fc.assert(
    fc.asyncProperty(clinics, async (clinic) => {
      const { list } = await worked(clinic);
      const again = await worked(structuredClone(clinic));
      expect(JSON.stringify(again.list)).toBe(JSON.stringify(list));
      const turned = await worked({ ...clinic, records: clinic.records.toReversed() });
      expect(JSON.stringify(turned.list.entries)).toBe(JSON.stringify(list.entries));
      expect(JSON.stringify(turned.list.notDue)).toBe(JSON.stringify(list.notDue));
    }),
    { numRuns: 2, endOnFailure: true },
  );
}, 120_000);
