import { request as ask } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { uploadLimits } from '../../src/service/uploads/read-multipart.js';
import { readerLimits, type UploadReader, uploadReader } from '../../src/service/uploads/upload-reader.js';
import { inlineText, makeWorkbook } from '../exchange/xlsx/make-workbook.js';
import { type TestService, testService } from './test-service.js';

const form = (
  boundary: string,
  parts: readonly (readonly [name: string, file: string, content: string | Uint8Array])[],
) =>
  Buffer.concat([
    ...parts.flatMap(([name, file, content]) => [
      Buffer.from(
        `--${boundary}\r\ncontent-disposition: form-data; name="${name}"${file && `; filename="${file}"`}\r\n\r\n`,
      ),
      Buffer.from(content as Uint8Array),
      Buffer.from('\r\n'),
    ]),
    Buffer.from(`--${boundary}--\r\n`),
  ]);
const multipart = { 'content-type': 'multipart/form-data; boundary=XX' };
const children = 'id,birth_date,sex\nnew1,2019-02-03,female\n';
const oneFile = form('XX', [['files', 'children.csv', children]]);

describe('bodies', () => {
  let service: TestService;
  let port: number;
  beforeAll(async () => {
    service = await testService({}, 1);
    await service.app.listen({ host: '127.0.0.1', port: 0 });
    port = (service.app.server.address() as AddressInfo).port;
  });
  afterAll(() => service.stop());

  /** Begins a body that never ends: who answers has not waited for it. */
  const answerBeforeBody = (method: string, path: string, headers: Record<string, string>) =>
    new Promise<number>((resolve, reject) => {
      const sent = ask({
        host: '127.0.0.1',
        port,
        method,
        path,
        headers: { ...headers, 'content-length': 500_000_000 },
      });
      const late = setTimeout(() => reject(new Error('the body is being waited for')), 4000);
      sent.on('error', () => undefined);
      sent.on('response', (answer) => {
        clearTimeout(late);
        resolve(answer.statusCode ?? 0);
        sent.destroy();
      });
      sent.write('--XX\r\n');
    });

  it.each([
    ['POST', '/api/imports', 401],
    ['POST', '/import', 401],
    ['POST', '/sign-in', 415],
    ['POST', '/api/session', 415],
    ['POST', '/no/such/page', 404],
    ['PUT', '/api/no-such', 404],
  ])('%s %s is answered %s to who is not signed in, before the body', async (method, path, status) => {
    expect(await answerBeforeBody(method, path, multipart)).toBe(status);
  });

  it('to a route for another role, or one without files, are answered before they are read', async () => {
    const as = (role: 'clinician' | 'administrator') => ({
      ...multipart,
      authorization: `Bearer ${service.tokens[role]}`,
    });
    expect(await answerBeforeBody('POST', '/api/imports', as('clinician'))).toBe(403);
    expect(await answerBeforeBody('POST', '/api/users', as('administrator'))).toBe(415);
    expect(await answerBeforeBody('POST', '/api/imports', as('administrator'))).toBe(413);
  });

  it.each([
    ['application/json', '/api/users', 257],
    ['application/json', '/api/session', 17],
    ['application/x-www-form-urlencoded', '/sign-in', 17],
  ])('%s to %s above its limit is 413', async (type, url, kilobytes) => {
    const answer = await service.as(url === '/api/users' ? 'administrator' : null, {
      method: 'POST',
      url,
      headers: { 'content-type': type },
      payload: ' '.repeat(kilobytes * 1024),
    });
    expect(answer.statusCode).toBe(413);
    expect(answer.json()).toMatchObject({ code: 'too-large' });
  });

  const upload = (payload: Buffer, headers: Record<string, string> = multipart) =>
    service.as('administrator', { method: 'POST', url: '/api/imports', headers, payload });

  it('with a file are taken on the route for them', async () => {
    const answer = await upload(oneFile);
    expect(answer.statusCode, answer.body).toBe(201);
    expect(answer.json().plan.tables[0]).toMatchObject({ table: 'children', added: 1 });
  });

  it.each([
    ['without a boundary', oneFile, { 'content-type': 'multipart/form-data' }],
    ['cut off', oneFile.subarray(0, 100), multipart],
  ])('%s are 400 in words', async (_, payload, headers) => {
    const answer = await upload(payload, headers);
    expect(answer.statusCode, answer.body).toBe(400);
    expect(answer.json()).toMatchObject({ code: 'bad-request' });
  });

  it('larger together than the limit are 413, though each file is small', async () => {
    const part = new Uint8Array(uploadLimits.bytes / 8).fill(32);
    const files = Array.from({ length: 9 }, (_, i) => ['files', `children${i}.csv`, part] as const);
    const answer = await upload(form('XX', files));
    expect(answer.statusCode).toBe(413);
    expect(answer.json().accepted).toContain('64 MiB together');
  });

  it('with more files than the limit are 413', async () => {
    const files = Array.from({ length: 13 }, (_, i) => ['files', `children${i}.csv`, 'id'] as const);
    expect((await upload(form('XX', files))).statusCode).toBe(413);
  });

  it('with a workbook that would fill memory are refused in words, and the service goes on', async () => {
    const bomb = makeWorkbook({
      sheets: {
        Feet: `<row r="1">${inlineText('A1', 'x')}</row><row r="1048576">${inlineText('XFD1048576', 'x')}</row>`,
      },
    });
    const answer = await upload(form('XX', [['files', 'clinic.xlsx', bomb]]));
    expect(answer.statusCode).toBe(422);
    expect(answer.json().detail).toContain('there is a value in column XFD');
    expect((await service.as(null, { url: '/ready' })).statusCode).toBe(200);
  });
});

describe('the process that reads uploads', () => {
  let reader: UploadReader;
  afterEach(() => reader.stop());
  const file = (text: string, name = 'children.csv') => [{ name, bytes: new TextEncoder().encode(text) }];
  const options = { today: '2026-01-01' };
  const many = `id,birth_date,sex\n${Array.from({ length: 400_000 }, (_, i) => `c${i},2019-02-03,female`).join('\n')}`;

  it('that fills its memory is given up in words; the next upload is read', async () => {
    reader = uploadReader({ ...readerLimits, memoryMebibytes: 60 });
    await expect(reader.read(file(many), options)).rejects.toMatchObject({
      code: 'invalid-file',
      message: 'Reading took too much memory',
    });
    expect((await reader.read(file(children), options)).caseload.children).toHaveLength(1);
  }, 60_000);

  it('that takes too long is given up in words; the web server answers meanwhile', async () => {
    reader = uploadReader({ ...readerLimits, seconds: 5 });
    await reader.read(file(children), options);
    const slow = file(`${many}${many.slice(17).replaceAll('c', 'd').repeat(3)}`);
    let longest = 0;
    let last = performance.now();
    const ticking = setInterval(() => {
      longest = Math.max(longest, performance.now() - last);
      last = performance.now();
    }, 20);
    await expect(reader.read(slow, options)).rejects.toMatchObject({
      message: 'Reading took longer than 5 seconds',
    });
    clearInterval(ticking);
    expect(longest).toBeLessThan(1000);
    expect((await reader.read(file(children), options)).caseload.children).toHaveLength(1);
  }, 60_000);

  it('takes a few in line and refuses more', async () => {
    reader = uploadReader({ ...readerLimits, waiting: 1 });
    const two = [reader.read(file(children), options), reader.read(file(children), options)];
    expect(() => reader.read(file(children), options)).toThrowError(/try again in a minute/);
    expect((await Promise.all(two)).length).toBe(2);
  }, 30_000);

  it('hands on what was refused, with its place', async () => {
    reader = uploadReader();
    await expect(reader.read(file('', 'children.csv'), options)).rejects.toMatchObject({
      code: 'invalid-file',
      message: 'children.csv is empty',
      place: { file: 'children.csv' },
    });
  }, 30_000);
});
