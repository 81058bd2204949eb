import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Store, systemActor } from '../../src/store/contract.js';
import { openStore } from '../../src/store/open-store.js';
import { type TestDatabase, testDatabase } from '../database/test-database.js';
import { exampleCaseload } from './example-children.js';

const today = '2026-02-01';

/** Two hosts on one database: what one has read already and keeps must be what the other has changed, at once. */
describe('what is kept while nobody changes it', () => {
  let database: TestDatabase;
  let here: Store;
  let there: Store;
  beforeAll(async () => {
    database = await testDatabase();
    here = await openStore(database.url);
    there = await openStore(database.url);
    await here.caseload.write(exampleCaseload(3), 'import', today, systemActor);
  });
  afterAll(async () => {
    await here.close();
    await there.close();
    await database.stop();
  });

  it('follows settings changed on another host', async () => {
    expect((await here.settings.get()).value.clinicName).not.toBe('Elsewhere');
    await there.settings.change({ clinicName: 'Elsewhere' }, null, systemActor);
    expect((await here.settings.get()).value.clinicName).toBe('Elsewhere');
  });

  it('follows a signature, a limit, a workshop job and a recall list made there', async () => {
    const look = async () => ({
      signed: (await here.signOffs.latest()).length,
      limits: await here.fitLimits.version(),
      jobs: JSON.stringify(await here.workshopJobs.all()),
      list: (await here.recall.inUse())[0]?.id,
    });
    const before = await look();
    expect(await look()).toEqual(before);
    await there.signOffs.sign(
      { subject: 'fit-limits', content: 'abc', name: 'Invented', profession: 'orthotist' },
      systemActor,
    );
    await there.fitLimits.change(
      [
        {
          family: 'solid-afo',
          measure: 'foot_length',
          figure: 'allowanceMm',
          mm: 11,
          reason: 'thicker liner',
        },
      ],
      null,
      systemActor,
    );
    const [job] = await there.workshopJobs.all();
    await there.workshopJobs.save({ ...job, status: 'cancelled' }, today, null, systemActor);
    const made = { modelName: 'm', modelVersion: '1', seed: 1, inputsHash: '' };
    const { id: newest } = await there.recall.save({ today, month: '2026-02-01', summary: {}, ...made }, []);
    const after = await look();
    expect(after.signed).toBe(before.signed + 1);
    expect(after.limits).toBe(before.limits + 1);
    expect(after.jobs).not.toBe(before.jobs);
    expect(after.jobs).toContain('cancelled');
    expect(before.list).toBeUndefined();
    expect(after.list).toBe(newest);
  });

  it('reads what has changed once for all who ask at the same time', async () => {
    const [job] = await there.workshopJobs.all();
    await there.workshopJobs.save({ ...job, status: 'in-progress' }, today, null, systemActor);
    const asked = await Promise.all(Array.from({ length: 20 }, () => here.workshopJobs.all()));
    // The very same list: twenty reads of thousands of jobs held up whoever came after a change.
    for (const jobs of asked) expect(jobs).toBe(asked[0]);
    expect(asked[0].find((j) => j.id === job.id)?.status).toBe('in-progress');
  });

  it('has another version after every change, whatever is forgotten of the changes before', async () => {
    const [job] = await there.workshopJobs.all();
    const versions: string[] = [];
    for (const status of ['fitted', 'cancelled', 'fitted'] as const) {
      await there.workshopJobs.save({ ...job, status }, today, null, systemActor);
      await there.caseload.sweepChanges(new Date(Date.now() + 60_000));
      versions.push(await here.caseload.version());
    }
    expect(new Set(versions).size).toBe(3);
  });

  it('keeps nothing of a transaction that is taken back', async () => {
    const before = (await here.settings.get()).value.clinicName;
    await expect(
      here.transaction(async (tx) => {
        await tx.settings.change({ clinicName: 'Never' }, null, systemActor);
        expect((await tx.settings.get()).value.clinicName).toBe('Never');
        throw new Error('taken back');
      }),
    ).rejects.toThrow('taken back');
    expect((await here.settings.get()).value.clinicName).toBe(before);
  });
});

it('names the role of an account as it is by now, and nobody once it is closed there', async () => {
  const database = await testDatabase();
  const [here, there] = [await openStore(database.url), await openStore(database.url)];
  try {
    const given = { name: 'mover', role: 'clinician' as const, password: 'a long password indeed' };
    const user = await here.users.create(given, systemActor);
    const token = await here.accessTokens.create(user.id, new Date(Date.now() + 60_000));
    const asked = () => here.accessTokens.userOf(token, new Date());
    expect((await asked())?.role).toBe('clinician');
    await there.users.create({ ...given, name: 'keeper', role: 'administrator' }, systemActor);
    await there.users.change(user.id, { role: 'scheduler' }, null, systemActor);
    expect((await asked())?.role).toBe('scheduler');
    await there.users.change(user.id, { disabled: true }, null, systemActor);
    expect(await asked()).toBeNull();
  } finally {
    await here.close();
    await there.close();
    await database.stop();
  }
});
