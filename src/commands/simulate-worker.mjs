import { launch } from '../launch/launch.mjs';

await launch('commands/simulate-worker.ts');
