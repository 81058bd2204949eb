import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { expect, it } from 'vitest';

const script = fileURLToPath(new URL('./fuzz/fuzz.ts', import.meta.url));

it('20,000 hostile inputs: no 500, no crash, none over 5 s, memory flat', async () => {
  const { stdout } = await promisify(execFile)(
    process.execPath,
    ['--expose-gc', '--import', 'tsx', script, '--inputs', '20000'],
    { maxBuffer: 10_000_000 },
  ).catch((error: { stdout?: string; message: string }) => ({ stdout: error.stdout || error.message }));
  const report = JSON.parse(stdout.trim().split('\n').at(-1) ?? '{}');
  expect(report).toMatchObject({ inputs: 20_000, faults: [] });
  // It reaches what is behind the doors, too.
  expect(report.statuses['200']).toBeGreaterThan(20);
  for (const kind of ['csv', 'fhir', 'workbook', 'http']) expect(report.done[kind]).toBeGreaterThan(100);
}, 600_000);
