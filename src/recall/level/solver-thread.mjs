import { launch } from '../../launch/launch.mjs';

await launch('recall/level/solver-thread.ts');
