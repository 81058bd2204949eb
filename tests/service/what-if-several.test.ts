/** The question of several changes at once, as its form sends it: mistakes named field by field, nothing written. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { systemActor } from '../../src/store/contract.js';
import { type TestService, testService, testToday } from './test-service.js';

describe('several changes at once', () => {
  let service: TestService;
  beforeAll(async () => {
    service = await testService();
  });
  afterAll(() => service.stop());

  const ask = (question: string, device = 'c0-d') =>
    service.as('clinician', {
      url: `/children/c0/what-if/several?device=${device}${question}`,
      headers: { accept: 'text/html' },
    });

  it.each([
    ['gain.foot_length=lots', 'gain.foot_length', 'a number of mm from -200 to 200'],
    ['how=new-cast&room.foot_length=-1', 'room.foot_length', 'a number of mm from 0 to 200'],
    ['reading.foot_length.left=17.8', 'reading.foot_length.left', 'in cm write the unit behind it'],
    ['reading.foot_length.left=17.8%20kg', 'reading.foot_length.left', 'in cm write the unit behind it'],
    ['gain.foot_length=3&on=2026-01-31', 'on', `a day from ${testToday}`],
    ['gain.foot_length=3&on=2029-01-01', 'on', 'to 2028-02-01 as YYYY-MM-DD'],
  ])('%s: names the field and what is accepted, and answers nothing', async (question, field, accepted) => {
    const answer = await ask(`&${question}`);
    expect(answer.statusCode).toBe(422);
    expect(answer.body).toContain(accepted);
    expect(answer.body).toContain(`href="#${field}"`);
    expect(answer.body).not.toContain('id="answer"');
  });

  it('answers room and readings together, in any unit, and writes nothing', async () => {
    const before = JSON.stringify(await service.store.children.record('c0', systemActor));
    const answer = await ask('&gain.foot_length=4&reading.foot_length.left=18,5%20cm&on=2026-03-01');
    expect(answer.statusCode, answer.body).toBe(200);
    expect(answer.body).toContain('room gained: foot length +4 mm; read: left foot length 185 mm');
    expect(answer.body).toContain('Nothing on this page is saved.');
    expect(JSON.stringify(await service.store.children.record('c0', systemActor))).toBe(before);
    const [stored] = (await service.store.forecasts.assessment('c0'))?.forecasts ?? [];
    expect(stored.today).toBe(testToday);
  });

  it('says so where an imagined reading is hard to believe', async () => {
    const answer = await ask('&reading.foot_length.left=250&on=2026-03-01');
    expect(answer.statusCode).toBe(200);
    expect(answer.body).toContain('is far from what is expected');
  });

  it('knows no device of another child', async () => {
    expect((await ask('', 'c1-d')).statusCode).toBe(404);
  });
});
