import { availableParallelism, loadavg } from 'node:os';
import { parseArgs } from 'node:util';
import { DoorpostError } from '../../../src/errors.js';
import { parseCaseload } from '../../../src/exchange/parse-caseload.js';
import { testService } from '../../service/test-service.js';
import { Dice } from './dice.js';
import { csvFiles, fhirFiles, options, workbookFiles } from './files.js';
import { answerFault, requestMaker } from './requests.js';

/**
 * Hostile input by number: CSV, workbooks and FHIR to the reader that the upload process runs, requests (bodies,
 * queries, headers, cookies) to the whole service on a real database. Every input is made from the seed and its number.
 *
 *   npm run fuzz -- --inputs 20000 --seed 1          ends with status 1 at a 500, a crash, 5 s or growing memory
 *   npm run fuzz -- --seed 1 --only 12345            that input again, shown
 *   npm run fuzz -- --inputs 100000 --files          files alone, which needs no database
 */
const { values } = parseArgs({
  options: {
    inputs: { type: 'string', default: '20000' },
    seed: { type: 'string', default: '20260201' },
    only: { type: 'string' },
    files: { type: 'boolean', default: false },
    minutes: { type: 'string', default: '600' },
  },
});
const [inputs, seed] = [Number(values.inputs), Number(values.seed)];
const SLOW_MS = 5000;
const PATIENCE_MS = 60_000;
/** On a machine with more to do than it has cores the clock tells of the others' work: the own share of it counts. */
const took = (ms: number, cpu: NodeJS.CpuUsage): number =>
  loadavg()[0] > availableParallelism() ? Math.min(ms, (cpu.user + cpu.system) / 1000) : ms;
const GROWTH_MB = 64;
/** Inputs between two looks at the memory. */
const SAMPLE = Math.min(5000, Math.max(1, Math.floor(inputs / 20)));
type Kind = 'csv' | 'fhir' | 'workbook' | 'http';
/** Every so many-th input is a request; of the others so many of 38 are of a kind: a FHIR file costs the least time, a workbook the most. */
const REQUEST_EVERY = 20;
const shares: Record<Exclude<Kind, 'http'>, number> = { csv: 9, fhir: 28, workbook: 1 };
const kinds = (['csv', 'fhir', 'workbook'] as const).flatMap(
  (kind) => Array(shares[kind]).fill(kind) as Exclude<Kind, 'http'>[],
);

const service = values.files ? null : await testService({ WORKERS: '0' }, 3);
const makeRequest = service && (await requestMaker(service));
const deadline = Date.now() + Number(values.minutes) * 60_000;
const done: Record<Kind, number> = { csv: 0, fhir: 0, workbook: 0, http: 0 };
const statuses = new Map<number, number>();
const faults: string[] = [];
let slowest = { ms: 0, input: -1, kind: '' };
const memory: { input: number; heapMb: number }[] = [];

const filesOf = { csv: csvFiles, fhir: fhirFiles, workbook: workbookFiles };

async function run(input: number): Promise<Kind> {
  const dice = new Dice(seed, input);
  const fault = (words: string) => faults.push(`input ${input}: ${words}`);
  if (service && makeRequest && input % REQUEST_EVERY === 0) {
    const request = makeRequest(dice, input / REQUEST_EVERY);
    if (values.only !== undefined) console.log(JSON.stringify(request, null, 1));
    const answer = await service.app.inject(request);
    statuses.set(answer.statusCode, (statuses.get(answer.statusCode) ?? 0) + 1);
    const wrong = answerFault(request, answer);
    if (wrong !== null) fault(wrong);
    return 'http';
  }
  const kind = dice.of(kinds);
  const files = filesOf[kind](dice);
  if (values.only !== undefined)
    for (const { name, bytes } of files) console.log(name, JSON.stringify(new TextDecoder().decode(bytes)));
  try {
    await parseCaseload(files, options(dice));
  } catch (error) {
    if (!(error instanceof DoorpostError) || error.status >= 500)
      fault((error as Error).stack?.split('\n').slice(0, 3).join(' ') ?? String(error));
  }
  return kind;
}

/** An answer that never comes is a fault of its own, told by number. */
const withinPatience = async <T>(work: Promise<T>): Promise<T | null> => {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<null>((resolve) => {
    timer = setTimeout(() => resolve(null), PATIENCE_MS);
  });
  return Promise.race([work, late]).finally(() => clearTimeout(timer));
};

process.on('unhandledRejection', (error) => faults.push(`unhandled: ${(error as Error)?.stack ?? error}`));
const started = performance.now();
const range =
  values.only === undefined
    ? { from: 0, to: inputs }
    : { from: Number(values.only), to: Number(values.only) + 1 };
let input = range.from;
for (; input < range.to && Date.now() < deadline && faults.length < 20; input++) {
  const begun = performance.now();
  const cpu = process.cpuUsage();
  const kind = await withinPatience(run(input));
  if (kind === null) {
    faults.push(`input ${input}: no answer within ${PATIENCE_MS / 1000} s`);
    continue;
  }
  const ms = took(performance.now() - begun, process.cpuUsage(cpu));
  done[kind]++;
  if (ms > slowest.ms) slowest = { ms: Math.round(ms), input, kind };
  if (ms > SLOW_MS) faults.push(`input ${input} (${kind}): took ${Math.round(ms)} ms`);
  if (input % SAMPLE === 0) {
    globalThis.gc?.();
    memory.push({ input, heapMb: Math.round(process.memoryUsage().heapUsed / 1e6) });
  }
}
const seconds = (performance.now() - started) / 1000;
const half = memory.slice(Math.floor(memory.length / 2));
const growth = half.length > 1 ? half[half.length - 1].heapMb - half[0].heapMb : 0;
if (globalThis.gc && growth > GROWTH_MB) faults.push(`memory grew by ${growth} MB in the second half`);
console.log(
  JSON.stringify({
    seed,
    inputs: input - range.from,
    seconds: Math.round(seconds),
    done,
    statuses: Object.fromEntries([...statuses].sort(([a], [b]) => a - b)),
    slowest,
    heapMb: memory.map(({ heapMb }) => heapMb),
    faults,
  }),
);
await service?.stop();
process.exit(faults.length > 0 ? 1 : 0);
