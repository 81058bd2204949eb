import { vi } from 'vitest';
import { runCommandLine } from '../../src/commands/run-command-line.js';

export interface Ran {
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** A command in this process: what it printed and the exit code it ended with. */
export async function run(...args: string[]): Promise<Ran> {
  const printed = { stdout: '', stderr: '' };
  const listen = (stream: 'stdout' | 'stderr') =>
    vi.spyOn(process[stream], 'write').mockImplementation((text) => {
      printed[stream] += text;
      return true;
    });
  const spies = [listen('stdout'), listen('stderr')];
  try {
    return { status: await runCommandLine(args), ...printed };
  } finally {
    for (const spy of spies) spy.mockRestore();
  }
}
