import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type TestService, testService } from './test-service.js';

describe.each([
  ['http://clinic.test', ['HttpOnly', 'SameSite=Lax', 'Path=/'], /^doorpost=/],
  ['https://clinic.test', ['HttpOnly', 'SameSite=Lax', 'Path=/', 'Secure'], /^__Host-doorpost=/],
])('at %s', (publicUrl, attributes, name) => {
  let service: TestService;
  beforeAll(async () => {
    service = await testService({ PUBLIC_URL: publicUrl, TRUSTED_PROXIES: '127.0.0.1' }, 1);
  });
  afterAll(() => service.stop());

  it("the session's cookie is closed to scripts and other sites, and under https to plain http", async () => {
    const answer = await service.app.inject({
      method: 'POST',
      url: '/sign-in',
      headers: {
        'content-type': 'application/x-www-form-urlencoded',
        'x-forwarded-proto': publicUrl.split(':')[0],
      },
      payload: new URLSearchParams({ name: 'clinician', password: service.passwords.clinician }).toString(),
    });
    const cookie = String(answer.headers['set-cookie']);
    expect(cookie).toMatch(name);
    for (const attribute of attributes) expect(cookie).toContain(attribute);
    expect(cookie).not.toContain('Domain');
  });
});
