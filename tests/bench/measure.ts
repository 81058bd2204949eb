/** What `npm run bench` measures, row by row; the rows are written to measured.json and from there into DEVELOPERS.md. */
import { writeFileSync } from 'node:fs';
import { availableParallelism, loadavg } from 'node:os';
import { fileURLToPath } from 'node:url';

export const measuredFile = fileURLToPath(new URL('measured.json', import.meta.url));

export interface Measured {
  readonly what: string;
  readonly value: number;
  readonly unit: string;
  readonly note: string;
}
export interface Measurements {
  readonly on: string;
  readonly node: string;
  readonly processors: number;
  /** Mean number of waiting processes over the last minute at the end: on a busy machine only ratios count. */
  readonly load: number;
  readonly rows: readonly Measured[];
}

const rows: Measured[] = [];

export function note(what: string, value: number, unit: string, note = ''): void {
  rows.push({ what, value: Number(value.toPrecision(3)), unit, note });
  console.log(`${what.padEnd(62)} ${value.toPrecision(3).padStart(8)} ${unit}  ${note}`);
}

/** Wall-clock and CPU seconds of this process: on a busy machine the second is the fairer figure. */
export async function measure(what: string, run: () => Promise<string> | string) {
  const cpu = process.cpuUsage();
  const wall = performance.now();
  const said = await run();
  const used = process.cpuUsage(cpu);
  const seconds = { wall: (performance.now() - wall) / 1000, cpu: (used.user + used.system) / 1e6 };
  note(what, seconds.wall, 's', `${seconds.cpu.toFixed(2)} s CPU; ${said}`);
  return seconds;
}

export function write(): void {
  const all: Measurements = {
    on: new Date().toISOString().slice(0, 10),
    node: process.version,
    processors: availableParallelism(),
    load: Number(loadavg()[0].toFixed(1)),
    rows,
  };
  writeFileSync(measuredFile, `${JSON.stringify(all, null, 2)}\n`);
}

/** The measurements as DEVELOPERS.md shows them. */
export const benchTable = ({ on, node, processors, load, rows }: Measurements): string =>
  [
    `Measured ${on}, ${processors} processors, Node ${node}, ${load} processes waiting at the end:`,
    '',
    '| What | Figure | |',
    '| --- | ---: | --- |',
    ...rows.map((r) => `| ${r.what} | ${r.value} ${r.unit} | ${r.note} |`),
  ].join('\n');
