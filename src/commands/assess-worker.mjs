import { launch } from '../launch/launch.mjs';

await launch('commands/assess-worker.ts');
