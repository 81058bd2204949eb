import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { run } from './run.js';

const doorpost = fileURLToPath(new URL('../../src/doorpost.mjs', import.meta.url));
const startedIn = process.cwd();
/** Away from the project, as a clinic would call it. */
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'doorpost-commands-'));
  process.chdir(folder);
  writeFileSync(
    join(folder, 'children.csv'),
    'Child ID;Name;Date of birth;Sex;Condition\r\nA1;Tuli Mosswhistle;14.03.2018;f;hemiplegia\r\nA2;Orrin Tinacre;2.7.2016;m;\r\n',
  );
  writeFileSync(
    join(folder, 'measurements.csv'),
    'child;date;foot length left (cm);foot length right (cm);height (cm)\r\n' +
      'A1;10.01.2026;17,8;17,9;121,0\r\nA1;12.06.2026;18,1;81,4;123,9\r\n' +
      'A2;15.02.2026;20,9;21,0;137,2\r\nA2;19.09.2026;21,3;21,4;140,0\r\n',
  );
  writeFileSync(
    join(folder, 'devices.csv'),
    'child;device;side;cast date;fitted\r\nA1;Solid AFO;left;12.06.2026;02.07.2026\r\nA2;foot orthosis;right;15.02.2026;01.03.2026\r\n',
  );
});

afterAll(() => process.chdir(startedIn));

describe('doorpost', () => {
  it('runs as a program of its own from anywhere, and hands its exit code to the shell', () => {
    const args = [doorpost, 'forecast', 'nowhere'];
    expect(
      spawnSync(process.execPath, args, { cwd: folder, encoding: 'utf8', timeout: 100_000 }),
    ).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('nowhere'),
    });
  });

  it('ends quietly when whoever reads has read enough', () => {
    const ended = spawnSync(
      'bash',
      ['-c', `set -o pipefail; "$0" "$1" columns | head -1`, process.execPath, doorpost],
      {
        encoding: 'utf8',
        timeout: 100_000,
      },
    );
    expect([ended.status, ended.stderr]).toEqual([0, '']);
  });

  it('names the dimensions it knows', async () => {
    const { status, stdout } = await run('columns', '--json');
    expect([status, stdout.includes('foot_length')]).toEqual([0, true]);
  });

  it('lists its commands and exit codes', async () => {
    const { status, stdout } = await run('--help');
    expect(status).toBe(0);
    for (const word of ['import', 'forecast', 'recall', 'chart', 'demo', 'Exit codes'])
      expect(stdout).toContain(word);
  });

  it.each([
    [['forecast'], /missing required argument/],
    [['forecast', 'nowhere'], /no file or folder at nowhere/],
    [['forecast', '.', '--today', '2026-02-30'], /YYYY-MM-DD/],
    [['dance'], /unknown command/],
  ])('%j is not understood: exit code 2 and what is accepted', async (args, message) => {
    const { status, stderr } = await run(...args);
    expect(status).toBe(2);
    expect(stderr).toMatch(message);
  });

  it('imports, refuses the mistyped cell alone, and writes clean tables that read back without complaint', async () => {
    const first = await run('import', '.', '--today', '2026-11-25', '--out', 'clean', '--json');
    expect(first.status).toBe(1);
    const { taken, refused } = JSON.parse(first.stdout);
    expect(taken).toMatchObject({ children: 2, measurements: 11, devices: 2 });
    expect(refused).toMatchObject([{ file: 'measurements.csv', row: 3, given: '81,4' }]);
    expect(readFileSync(join(folder, 'clean', 'measurements.csv'), 'utf8')).toContain('178,mm');
    const again = await run('import', 'clean', '--today', '2026-11-25', '--json');
    expect(again.status).toBe(0);
    expect(JSON.parse(again.stdout).taken).toEqual(taken);
  });

  it('forecasts both devices, each by the foot, and says which row took no part', async () => {
    const { status, stdout } = await run('forecast', '.', '--today', '2026-11-25');
    expect(status).toBe(1);
    expect(stdout).toMatch(/A1 .*Solid AFO, left.*left foot length/);
    expect(stdout).toMatch(/A2 .*Foot orthosis, right.*right foot length/);
    expect(stdout).toContain('measurements.csv row 3');
    expect(stdout).toContain('not a diagnosis');
    expect(stdout).not.toContain('Mosswhistle');
  });

  it('takes a clinic’s own fit rules from a file, and says what is wrong with one that cannot be used', async () => {
    const figure = (value: number) => ({ value, source: 'our own audit' });
    const dimensions = [{ measure: 'foot_length', allowanceMm: figure(12) }];
    writeFileSync(join(folder, 'fit-rules.json'), JSON.stringify([{ id: 'solid-afo', dimensions }]));
    writeFileSync(join(folder, 'not.json'), '[');
    writeFileSync(join(folder, 'no-source.json'), '[{"id": "kafo", "horizonDays": {"value": 9}}]');
    const asked = ['forecast', 'children.csv', 'measurements.csv', 'devices.csv', '--today', '2026-11-25'];
    const forecastOf = async (...more: string[]) =>
      JSON.parse((await run(...asked, '--child', 'tuli mosswhistle', '--json', ...more)).stdout).children[0]
        .forecasts[0];
    const [shipped, own] = [await forecastOf(), await forecastOf('--rules', 'fit-rules.json')];
    expect([shipped.room[0].allowanceMm, own.room[0].allowanceMm]).toEqual([8, 12]);
    expect(own.p50 > shipped.p50).toBe(true);
    for (const [file, message] of [
      ['not.json', /fit rules in not.json are not JSON/],
      ['no-source.json', /'kafo', field horizonDays.source/],
      ['missing.json', /no such file/],
    ] as const) {
      const { status, stderr } = await run(...asked, '--rules', file);
      expect([status, file]).toEqual([2, file]);
      expect(stderr).toMatch(message);
    }
  });

  it('gives every entry of the recall list a week, and says where there are too few places', async () => {
    const month = ['--today', '2026-11-25', '--date-format', 'dmy', '--month', '2027-06'];
    const listed = await run('recall', '.', ...month, '--json', '--out', 'recall.csv');
    const { entries, levelling } = JSON.parse(listed.stdout);
    expect(entries.length).toBeGreaterThan(0);
    // Who must be seen now is seen outside the plan of the weeks.
    for (const entry of entries.filter((e: { action: string }) => e.action !== 'see-now')) {
      expect(entry.plannedWeek >= '2026-11-23', entry.childId).toBe(true);
      expect(entry.weekReason).toMatch(/week/);
    }
    expect(levelling.weeks[1].slots).toBe(12);
    const [headings, first] = readFileSync(join(folder, 'recall.csv'), 'utf8').split('\r\n');
    expect(headings).toContain(',plannedWeek,clinician,weekReason');
    expect(first).toContain(entries[0].plannedWeek);
    expect((await run('recall', '.', ...month)).stdout).toContain(`| week of ${entries[0].plannedWeek} |`);
    expect((await run('recall', '.', '--slots-per-week', '0')).stderr).toMatch(/from 1 to 1000/);
  });
});
