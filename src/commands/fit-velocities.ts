import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { referenceVelocityChart } from '../charts/reference-velocity-chart.js';
import { renderSvg } from '../charts/render-chart.js';
import { medianVelocities } from '../reference/median-velocities.js';
import { loadReferences } from '../reference/reference.js';
import { type Terminal, terminal } from './terminal.js';

const shipped = fileURLToPath(new URL('../../reference-data/', import.meta.url));
/** In the first half year everything grows so fast that the rest could not be seen. */
const FROM_YEARS = 0.5;

/** `doorpost fit velocities`: draws how fast the working reference's medians grow, by measure and sex. */
export async function fitVelocities(opts: { out?: string }, io: Terminal = terminal): Promise<void> {
  const folder = opts.out ?? shipped;
  mkdirSync(folder, { recursive: true });
  const path = join(folder, 'velocities.svg');
  writeFileSync(
    path,
    await renderSvg(referenceVelocityChart(medianVelocities(loadReferences(), FROM_YEARS))),
  );
  io.out(path);
}
