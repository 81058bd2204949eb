// Launcher of the drawing thread: teaches it to read TypeScript, as src/doorpost.mjs does.
import { fileURLToPath } from 'node:url';
import { register } from 'tsx/esm/api';

register({ tsconfig: fileURLToPath(new URL('../../tsconfig.json', import.meta.url)) });
await import('./chart-thread.ts');
