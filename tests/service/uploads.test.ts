import { randomUUID } from 'node:crypto';
import { readdirSync, utimesSync, writeFileSync } from 'node:fs';
import { request as ask } from 'node:http';
import { type AddressInfo, connect } from 'node:net';
import path from 'node:path';
import { Readable } from 'node:stream';
import { text } from 'node:stream/consumers';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { uploadLimits } from '../../src/service/uploads/read-multipart.js';
import {
  makeUploadFolder,
  removeLeftUploads,
  removeUploadFolder,
} from '../../src/service/uploads/upload-folder.js';
import { readerLimits, uploadReader } from '../../src/service/uploads/upload-reader.js';
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
  const { TMPDIR } = process.env;
  beforeAll(async () => {
    service = await testService({}, 1);
    process.env.TMPDIR = service.database.folder;
    await service.app.listen({ host: '127.0.0.1', port: 0 });
    port = (service.app.server.address() as AddressInfo).port;
  });
  afterAll(async () => {
    if (TMPDIR === undefined) delete process.env.TMPDIR;
    else process.env.TMPDIR = TMPDIR;
    await service.stop();
  });
  const leftOnDisk = () => readdirSync(service.database.folder).filter((n) => n.includes('upload'));

  /** Folders in which a file lies that was sent; what is read of one goes into another. */
  const uploadsOnDisk = () =>
    leftOnDisk().filter((folder) => {
      const files = readdirSync(path.join(service.database.folder, folder));
      return files.some((name) => name !== 'records');
    }).length;

  const allGone = () => vi.waitFor(() => expect(leftOnDisk()).toEqual([]), { timeout: 10_000 });

  /** A form with one file of so many MiB that is no workbook, its size not announced. */
  const sendUnannounced = (mebibytes: number) =>
    new Promise<{ status: number; said: string }>((resolve, reject) => {
      const sent = ask({
        host: '127.0.0.1',
        port,
        method: 'POST',
        path: '/api/imports',
        headers: { ...multipart, authorization: `Bearer ${service.tokens.administrator}` },
      });
      sent.on('error', reject);
      sent.on('response', async (answer) => {
        resolve({ status: answer.statusCode ?? 0, said: await text(answer) });
        sent.destroy();
      });
      const part = Buffer.alloc(64 * 1024, 32);
      const parts = function* () {
        yield form('XX', [['files', 'clinic.xlsx', '']]).subarray(0, -'\r\n--XX--\r\n'.length);
        for (let i = 0; i < mebibytes * 16; i++) yield part;
        yield '\r\n--XX--\r\n';
      };
      Readable.from(parts()).pipe(sent);
    });

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
    expect(answer.json().accepted).toContain('32 MiB together');
  });

  it('larger than the limit are 413 also when their size is not announced', async () => {
    const { status, said } = await sendUnannounced(33);
    expect(status, said).toBe(413);
    expect(JSON.parse(said).accepted).toContain('32 MiB together');
  });

  it('lie on the disk while they come in, three large ones at a time, and are gone with the answer', async () => {
    // What the tests before sent goes a moment after its answer.
    await allGone();
    const { arrayBuffers: before } = process.memoryUsage();
    let most = 0;
    let onDisk = 0;
    const look = setInterval(() => {
      most = Math.max(most, process.memoryUsage().arrayBuffers - before);
      onDisk = Math.max(onDisk, uploadsOnDisk());
    }, 5);
    const sent = [30, 30, 30].map(sendUnannounced);
    while (leftOnDisk().length < 3) await new Promise((r) => setTimeout(r, 5));
    const fourth = await upload(oneFile);
    expect(fourth.statusCode).toBe(429);
    expect(fourth.json().detail).toContain('try again in a minute');
    const answers = await Promise.all(sent);
    clearInterval(look);
    for (const { status, said } of answers) {
      expect(status, said).toBe(422);
      expect(said).toContain('clinic.xlsx');
    }
    expect(onDisk).toBe(3);
    // 90 MiB came in; what is in flight, here and at the sender, is in the same process.
    expect(most / 1024 / 1024).toBeLessThan(60);
    await allGone();
  }, 60_000);

  it('left on the disk by a process that was killed are removed at the next start, those of now are not', async () => {
    await allGone();
    const [old, now] = [await makeUploadFolder(), await makeUploadFolder()];
    const hoursAgo = new Date(Date.now() - 2 * 3_600_000);
    utimesSync(old, hoursAgo, hoursAgo);
    await removeLeftUploads(new Date());
    expect(leftOnDisk()).toEqual([path.basename(now)]);
    await removeUploadFolder(now);
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

  // The last: the service is stopped by it.
  it('begun before a stop are 503 with Retry-After, on an address that is always there too', async () => {
    const socket = connect(port, '127.0.0.1');
    socket.write('GET /health HTTP/1.1\r\nHost: doorpost\r\n');
    await new Promise((r) => setTimeout(r, 100));
    const closed = service.app.close();
    await new Promise((r) => setTimeout(r, 100));
    socket.write('\r\n');
    const answer = await text(socket);
    await closed;
    expect(answer).toMatch(/^HTTP\/1.1 503 /);
    expect(answer).toMatch(/retry-after: 5/i);
    expect(answer).toContain('"code":"stopping"');
  });
});

describe('the process that reads uploads', () => {
  /** One for the three below: it starts again by itself when it was given up. */
  const reader = uploadReader({ ...readerLimits, waiting: 1, seconds: 3 });
  let folder: string;
  beforeAll(async () => {
    folder = await makeUploadFolder();
  });
  afterAll(() => {
    reader.stop();
    return removeUploadFolder(folder);
  });
  const file = (text: string, name = 'children.csv') => ({
    files: [{ name, bytes: new TextEncoder().encode(text) }],
    options: { today: '2026-01-01' },
    shown: 10,
    into: path.join(folder, randomUUID()),
  });
  const one = [{ part: 'children', bytes: expect.any(Number) }];
  /** A clinic's own list that is read for many seconds. */
  const many = `Name,DOB,Seen,Foot L,Foot R\n${Array.from({ length: 140_000 }, (_, i) => `Child${i},3/2/2019,${1 + (i % 28)}/${1 + (i % 12)}/2025,17.1,${17 + (i % 9) / 10}`).join('\n')}`;

  it('takes a few in line and refuses more', async () => {
    const two = [reader.read(file(children)), reader.read(file(children))];
    expect(() => reader.read(file(children))).toThrowError(/try again in a minute/);
    expect((await Promise.all(two)).length).toBe(2);
  }, 30_000);

  it('hands on what was refused, with its place', async () => {
    await expect(reader.read(file('', 'children.csv'))).rejects.toMatchObject({
      code: 'invalid-file',
      message: 'children.csv is empty',
      place: { file: 'children.csv' },
    });
  }, 30_000);

  it('that takes too long is given up in words; the web server answers meanwhile', async () => {
    const onDisk = path.join(folder, 'slow');
    writeFileSync(onDisk, many);
    const slow = { ...file(''), files: [{ name: 'children.csv', path: onDisk }] };
    let longest = 0;
    let last = performance.now();
    const ticking = setInterval(() => {
      longest = Math.max(longest, performance.now() - last);
      last = performance.now();
    }, 20);
    await expect(reader.read(slow)).rejects.toMatchObject({
      message: 'Reading took longer than 3 seconds',
    });
    clearInterval(ticking);
    expect(longest).toBeLessThan(1000);
    expect((await reader.read(file(children))).lists).toEqual(one);
  }, 60_000);

  it('that fills its memory is given up in words; the next upload is read', async () => {
    const small = uploadReader({ ...readerLimits, memoryMebibytes: 60 });
    const heavy = `Name,DOB,Notes\n${Array.from({ length: 140_000 }, (_, i) => `Child${i},3/2/2019,${`remark ${i} `.repeat(40)}`).join('\n')}`;
    await expect(small.read(file(heavy))).rejects.toMatchObject({
      code: 'invalid-file',
      message: 'Reading took too much memory',
    });
    expect((await small.read(file(children))).lists).toEqual(one);
    small.stop();
  }, 60_000);

  it('that does not start or ends by itself is no fault of the file', async () => {
    const nowhere = uploadReader(readerLimits, path.join(import.meta.dirname, 'no-such-program.mjs'));
    await expect(nowhere.read(file(children))).rejects.toThrowError(/did not start/);
    nowhere.stop();
    const ends = path.join(folder, 'ends.mjs');
    writeFileSync(ends, "process.send('ready'); process.on('message', () => process.exit(7));");
    const ending = uploadReader(readerLimits, ends);
    await expect(ending.read(file(children))).rejects.toThrowError(/ended by itself \(7\)/);
    ending.stop();
  }, 30_000);
});
