import { type ChildProcess, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const launcher = fileURLToPath(new URL('../../src/doorpost.mjs', import.meta.url));

/** A doorpost process of its own, as a person starts it; killed with everything it started. */
export class Running {
  output = '';
  private constructor(readonly process: ChildProcess) {
    process.stdout?.on('data', (chunk) => (this.output += chunk));
    process.stderr?.on('data', (chunk) => (this.output += chunk));
  }

  /** `through`: a program that starts it, such as `unshare -p`. */
  static start(command: 'serve' | 'worker', env: Record<string, string>, through: string[] = []): Running {
    const { CI: _ci, ...inherited } = process.env;
    const [program, ...args] = [...through, process.execPath, launcher, command];
    return new Running(
      spawn(program, args, {
        env: { ...inherited, NODE_ENV: 'development', LOG_LEVEL: 'info', ...env },
        stdio: ['ignore', 'pipe', 'pipe'],
      }),
    );
  }

  async says(text: RegExp, seconds = 60): Promise<RegExpExecArray> {
    for (let i = 0; i < seconds * 20; i++) {
      const found = text.exec(this.output);
      if (found) return found;
      if (this.process.exitCode !== null || this.process.signalCode !== null) break;
      await new Promise((r) => setTimeout(r, 50));
    }
    throw new Error(`did not say ${text}: ${this.output.slice(-1500)}`);
  }

  /** As the power goes: no chance to tidy up. */
  kill9(): Promise<void> {
    return this.end('SIGKILL');
  }

  end(signal: NodeJS.Signals): Promise<void> {
    this.process.kill(signal);
    return this.ended();
  }

  ended(): Promise<void> {
    return new Promise((resolve) => {
      if (this.process.exitCode !== null || this.process.signalCode !== null) return resolve();
      this.process.on('exit', () => resolve());
    });
  }
}
