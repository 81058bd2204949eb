import { createHmac } from 'node:crypto';
import { type Role, roles, type Store, systemActor } from '../store/contract.js';
import type { Clock } from './clock.js';
import type { Configuration } from './configuration.js';
import type { Jobs, ServiceDeps } from './dependencies.js';

const SEED = 20240317;

/**
 * An invented clinic with a sign-in per role, put into a store that holds nothing at all; never into one in use, and
 * never in production. Its passwords are made at random once and kept to be shown again at the next start.
 */
export async function openDemo(
  store: Store,
  config: Configuration,
  clock: Clock,
  jobs: Jobs,
): Promise<ServiceDeps['demoSignIns']> {
  const signIns = async () => {
    const key = await store.secret('demo-sign-ins');
    return roles.map((role) => ({ name: `demo-${role}`, password: passwordOf(key, role), role }));
  };
  const users = await store.users.list();
  if (users.length > 0 || (await store.caseload.ids('any')).length > 0) {
    const all = await signIns();
    return all.filter((s) => users.some((u) => u.name === s.name && !u.disabled && u.hasPassword));
  }
  const { demoClinic, demoSlotsPerWeek } = await import('../demo/demo-clinic.js');
  const clinic = demoClinic({ seed: SEED, today: clock.today(), children: config.demoChildren });
  const all = await signIns();
  await store.transaction(async (tx) => {
    await tx.caseload.write(clinic.caseload, 'demo clinic', clock.today(), systemActor);
    for (const { name, password, role } of all)
      await tx.users.create({ name, displayName: `Demo ${role}`, role, password }, systemActor);
    const castingSlotsPerWeek = demoSlotsPerWeek(clinic.caseload.children.length);
    await tx.settings.change(
      { clinicName: 'Invented clinic (demo)', castingSlotsPerWeek },
      null,
      systemActor,
    );
  });
  await jobs.startRecallRun(null);
  return all;
}

/** Three groups of easily typed letters, derived from a secret that only this database knows. */
function passwordOf(key: string, role: Role): string {
  const letters = 'abcdefghjkmnpqrstuvwxyz';
  const digest = createHmac('sha256', key).update(role).digest();
  const word = (from: number) =>
    [...digest.subarray(from, from + 4)].map((b) => letters[b % letters.length]).join('');
  return [word(0), word(4), word(8)].join('-');
}
