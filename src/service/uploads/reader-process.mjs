import { launch } from '../../launch/launch.mjs';

await launch('service/uploads/reader-process.ts');
