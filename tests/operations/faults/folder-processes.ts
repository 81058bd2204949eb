import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { createServer } from 'node:net';
import path from 'node:path';

/** Node and PostgreSQL processes whose command line or environment names the folder. */
export function processesOf(folder: string): number[] {
  if (process.platform !== 'linux') {
    const listed = spawnSync('ps', ['-Aww', '-o', 'pid=,command=']).stdout.toString().split('\n');
    return listed.filter((line) => line.includes(folder)).map((line) => Number.parseInt(line, 10));
  }
  return readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name) && Number(name) !== process.pid)
    .filter((pid) => {
      const read = (file: string) => {
        try {
          return readFileSync(`/proc/${pid}/${file}`, 'utf8');
        } catch {
          return '';
        }
      };
      const what = read('cmdline');
      if (!/doorpost\.mjs|postgres/.test(what)) return false;
      return `${what} ${read('environ')}`.includes(folder);
    })
    .map(Number);
}

/** The server of the built-in database on this folder, null while there is none. */
export async function postmasterOf(folder: string): Promise<number | null> {
  const text = await readFile(path.join(folder, 'postgres', 'postmaster.pid'), 'utf8').catch(() => '');
  return Number(text.split('\n')[0]) || null;
}

/** A process and those it started. */
export function familyOf(pid: number): number[] {
  const listed = spawnSync('ps', ['-A', '-o', 'pid=,ppid=']).stdout.toString().trim().split('\n');
  const children = listed
    .map((line) => line.trim().split(/\s+/).map(Number))
    .filter(([, parent]) => parent === pid);
  return [pid, ...children.map(([child]) => child)];
}

export const pause = (ms: number) => new Promise<void>((r) => setTimeout(r, ms));

/** Looks twenty times a second. */
export async function until(
  holds: () => boolean | Promise<boolean>,
  seconds: number,
  why = () => '',
): Promise<void> {
  const end = Date.now() + seconds * 1000;
  while (!(await holds())) {
    if (Date.now() > end) throw new Error(`waited ${seconds} s in vain: ${why().slice(-1500)}`);
    await pause(50);
  }
}

export function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const probe = createServer().listen(0, '127.0.0.1', () => {
      const { port } = probe.address() as { port: number };
      probe.close(() => resolve(port));
    });
  });
}
