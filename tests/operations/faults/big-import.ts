import { readFileSync } from 'node:fs';
import { request } from 'node:http';
import { ClinicAtWork } from './clinic-at-work.js';
import { pause, processesOf } from './folder-processes.js';
import type { Scenario } from './scenario.js';

const MIB = 1024 * 1024;
/** What the web server may grow by while files come in. */
const GROWTH_MIB = 250;

/** Imports of 200 MiB and forms of 12 files of 60 MB three at a time, before sign-in, by the wrong role, and signed in. */
export const bigImport: Scenario = async (say) => {
  const clinic = await ClinicAtWork.open();
  try {
    const service = await clinic.start('serve');
    clinic.begin(100);
    await pause(1000);
    const { pid = 0 } = service.process;
    const figures: Record<string, unknown> = {};
    const measure = async (what: string, expected: number[], ask: () => Promise<Sent>[]) => {
      const before = residentMib(pid);
      let most = before;
      const look = setInterval(() => {
        most = Math.max(most, residentMib(pid));
      }, 20);
      const answers = await Promise.all(ask());
      clearInterval(look);
      const seen = { growthMib: Math.round(most - before), answers };
      figures[what] = seen;
      say(`${what}: ${JSON.stringify(seen)}`);
      if (most - before > GROWTH_MIB)
        clinic.faults.push(`${what}: ${Math.round(most - before)} MiB more memory`);
      for (const { status } of answers)
        if (!expected.includes(status)) clinic.faults.push(`${what}: answered ${status}`);
      if (!(await clinic.isReady())) clinic.faults.push(`${what}: not ready after it`);
    };
    const { administrator, clinician } = clinic.tokens;
    const send = (token: string | null, files: number, mib: number, announced = true) =>
      sendFiles(clinic.port, token, files, mib, announced);
    const thrice = (one: () => Promise<Sent>) => () => [one(), one(), one()];
    await measure('200 MiB, nobody', [401], () => [send(null, 1, 200)]);
    await measure(
      '3 x 12 x 60 MB, nobody',
      [401],
      thrice(() => send(null, 12, 57)),
    );
    await measure(
      '3 x 12 x 60 MB, a clinician',
      [403],
      thrice(() => send(clinician, 12, 57)),
    );
    await measure('200 MiB', [413], () => [send(administrator, 1, 200)]);
    await measure('200 MiB, size not announced', [413], () => [send(administrator, 1, 200, false)]);
    await measure(
      '3 x 12 x 60 MB',
      [413],
      thrice(() => send(administrator, 12, 57)),
    );
    await measure(
      '3 x 12 x 60 MB, size not announced',
      // The clinic's own import may hold one of the places.
      [413, 429],
      thrice(() => send(administrator, 12, 57, false)),
    );
    await measure(
      '3 x 30 MiB, as much as is taken',
      [201, 422, 429],
      thrice(() => send(administrator, 1, 30)),
    );
    figures.processes = processesOf(clinic.folder).length;
    await clinic.end();
    await service.end('SIGTERM');
    return { faults: clinic.faults, figures, answers: clinic.acknowledged.answers };
  } finally {
    await clinic.close();
  }
};

interface Sent {
  readonly status: number;
  /** How much was sent until the answer came. */
  readonly sentMib: number;
  readonly ms: number;
  readonly words: string;
}

/** One form with files of a CSV's rows, written as fast as it is taken. */
function sendFiles(
  port: number,
  token: string | null,
  files: number,
  mib: number,
  announced: boolean,
): Promise<Sent> {
  const row = Buffer.from('child,2019-01-02,female,moved-away,a free word\n'.repeat(22_000));
  const head = (n: number) =>
    Buffer.from(
      `--X\r\ncontent-disposition: form-data; name="files"; filename="children${n}.csv"\r\n\r\nid,birth_date,sex,status,name\n`,
    );
  const tail = Buffer.from('\r\n--X--\r\n');
  const rows = Math.ceil((mib * MIB) / row.length);
  const lengths = Array.from({ length: files }, (_, n) => head(n).length + rows * row.length);
  const length = tail.length + 2 * (files - 1) + lengths.reduce((a, b) => a + b);
  const started = Date.now();
  return new Promise((resolve) => {
    let sent = 0;
    let status = 0;
    let words = '';
    const done = () =>
      resolve({
        status,
        sentMib: Math.round(sent / MIB),
        ms: Date.now() - started,
        words: words.slice(0, 160),
      });
    const asked = request({
      port,
      method: 'POST',
      path: '/api/imports',
      headers: {
        'content-type': 'multipart/form-data; boundary=X',
        ...(token === null ? {} : { authorization: `Bearer ${token}` }),
        ...(announced ? { 'content-length': length } : {}),
      },
    });
    asked.on('response', (answer) => {
      status = answer.statusCode ?? 0;
      let body = '';
      answer.on('data', (chunk) => {
        body += chunk;
      });
      answer.on('close', () => {
        try {
          words = JSON.parse(body).detail ?? '';
        } catch {
          words = body;
        }
        asked.destroy();
        done();
      });
    });
    // The server may cut a sender whom it has answered.
    asked.on('error', () => setTimeout(done, 200));
    const write = async () => {
      for (let n = 0; n < files; n++) {
        if (!(await put(n === 0 ? head(n) : Buffer.concat([Buffer.from('\r\n'), head(n)])))) return;
        for (let i = 0; i < rows; i++) if (!(await put(row))) return;
      }
      asked.end(tail);
    };
    const put = async (bytes: Buffer): Promise<boolean> => {
      if (asked.destroyed || status !== 0) return false;
      sent += bytes.length;
      if (!asked.write(bytes))
        await Promise.race([new Promise((r) => asked.once('drain', r)), pause(30_000)]);
      return true;
    };
    void write();
  });
}

function residentMib(pid: number): number {
  const status = readFileSync(`/proc/${pid}/status`, 'utf8');
  return Number(/VmRSS:\s+(\d+) kB/.exec(status)?.[1] ?? 0) / 1024;
}
