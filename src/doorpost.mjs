#!/usr/bin/env node
import { launch } from './launch/launch.mjs';

await launch('commands/main.ts');
