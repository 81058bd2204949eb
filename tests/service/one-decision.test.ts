/** What a child needs is decided of all that is known, whoever looks: a scheduler's page and the list must not differ. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { loadChild } from '../../src/service/child-view/load-child.js';
import { type Role, systemActor } from '../../src/store/contract.js';
import { type TestService, testService, testToday } from './test-service.js';

let service: TestService;
beforeAll(async () => {
  service = await testService({}, 2);
});
afterAll(() => service.stop());

const seenBy = (role: Role) => loadChild('c0', service.deps, { ...systemActor, role });

it('comfort decides on the scheduler’s page as on the clinician’s, and is told by no diagnosis', async () => {
  const before = (await seenBy('clinician')).inUse.map((d) => d.decision);
  await service.store.children.change('c0', { palliative: true }, testToday, null, systemActor);
  const [treats, plans] = [await seenBy('clinician'), await seenBy('scheduler')];
  const decisions = treats.inUse.map((d) => d.decision);
  // It changes what is decided, so that a page that does not know of it would say something else.
  expect(decisions).not.toEqual(before);
  expect(plans.inUse.map((d) => d.decision)).toEqual(decisions);
  expect(plans.assessment).toEqual(treats.assessment);
  expect([plans.record.child.palliative, plans.record.child.conditions, plans.record.markers]).toEqual([
    false,
    [],
    [],
  ]);
});
