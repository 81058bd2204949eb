import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { FastifyInstance } from 'fastify';
import { chartFonts } from '../../charts/render-chart.js';

const require = createRequire(import.meta.url);
const own = (name: string) => new URL(`./assets/${name}`, import.meta.url);
/** A file beside the module's entry, which lies in its build folder. */
const installed = (module: string, file: string) => join(dirname(require.resolve(module)), file);

const tourFolder = new URL('../../../charts/tour/', import.meta.url);
/** Pictures of the invented demo clinic, for the pages of help. */
const tour = ['1-child.png', '4-recall.png', '5-family.png'];
const script = 'text/javascript; charset=utf-8';
/** Name under /assets, file, type. Vega is fetched by a page only once a reader touches a chart. */
const files: readonly (readonly [string, string | URL, string])[] = [
  ['style.css', own('style.css'), 'text/css; charset=utf-8'],
  ['child.css', own('child.css'), 'text/css; charset=utf-8'],
  ['family.css', own('family.css'), 'text/css; charset=utf-8'],
  ['mark.svg', own('mark.svg'), 'image/svg+xml'],
  ['charts.js', own('charts.js'), script],
  ['visit.js', own('visit.js'), script],
  ['device.js', own('device.js'), script],
  ['print.js', own('print.js'), script],
  ['room.js', own('room.js'), script],
  ['copy.js', own('copy.js'), script],
  ['recall.js', own('recall.js'), script],
  ...tour.map((name) => [`tour/${name}`, new URL(name, tourFolder), 'image/png'] as const),
  ['font-regular.ttf', chartFonts.regular, 'font/ttf'],
  ['font-bold.ttf', chartFonts.bold, 'font/ttf'],
  ['vega.js', require.resolve('vega').replace(/vega[^/]*$/, 'vega.min.js'), script],
  ['vega-lite.js', installed('vega-lite', 'vega-lite.min.js'), script],
  ['vega-embed.js', installed('vega-embed', 'vega-embed.min.js'), script],
];

/** Style, scripts and fonts under /assets, read once, with a digest so that a browser asks again cheaply. */
export async function registerAssets(app: FastifyInstance): Promise<void> {
  for (const [name, file, type] of files) {
    const body = readFileSync(file);
    const etag = `"${createHash('sha256').update(body).digest('base64url').slice(0, 16)}"`;
    app.get(`/assets/${name}`, { config: { access: 'public' } }, async (request, reply) => {
      reply.header('etag', etag).header('cache-control', 'public, max-age=3600, must-revalidate');
      if (request.headers['if-none-match'] === etag) return reply.status(304).send();
      return reply.type(type).send(body);
    });
  }
}
