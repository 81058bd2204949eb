import { launch } from '../launch/launch.mjs';

await launch('charts/chart-thread.ts');
