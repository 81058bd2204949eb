#!/usr/bin/env node
// Launcher: teaches Node to read TypeScript, then hands over to the command line.
import { register } from 'tsx/esm/api';

register();
await import('./commands/main.ts');
