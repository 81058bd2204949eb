import { runCommandLine } from './run-command-line.js';

process.exitCode = await runCommandLine(process.argv.slice(2));
// A pipe takes what was written only as fast as its reader reads: nothing of it may be cut off.
await new Promise<void>((done) => process.stdout.write('', () => done()));
// The work is over. What a failure or a stop left open must not keep the process, and with it its port or its terminal.
setTimeout(() => process.exit(), 500).unref();
