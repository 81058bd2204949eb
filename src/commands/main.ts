import { runCommandLine } from './run-command-line.js';

process.exitCode = await runCommandLine(process.argv.slice(2));
// The work is over. What a failure or a stop left open must not keep the process, and with it its port or its terminal.
setTimeout(() => process.exit(), 500).unref();
