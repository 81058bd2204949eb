#!/usr/bin/env node
// Launcher: teaches Node to read TypeScript, by our own settings wherever it is called from, then hands over.
import { fileURLToPath } from 'node:url';
import { register } from 'tsx/esm/api';

register({ tsconfig: fileURLToPath(new URL('../tsconfig.json', import.meta.url)) });
await import('./commands/main.ts');
