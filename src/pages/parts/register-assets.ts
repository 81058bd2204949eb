import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { extname } from 'node:path';
import type { FastifyInstance } from 'fastify';
import { chartFonts } from '../../charts/render-chart.js';

const own = (name: string) => new URL(`./assets/${name}`, import.meta.url);

const tourFolder = new URL('../../../charts/tour/', import.meta.url);
/** Pictures of the invented demo clinic, for the pages of help. */
const tour = ['1-child.png', '4-recall.png', '5-family.png'];
const script = 'text/javascript; charset=utf-8';
const types: Readonly<Record<string, string>> = {
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.js': script,
};
/** Name under /assets, file, type. */
const files: readonly (readonly [string, string | URL, string])[] = [
  ...readdirSync(own('')).map((name) => [name, own(name), types[extname(name)]] as const),
  ...tour.map((name) => [`tour/${name}`, new URL(name, tourFolder), 'image/png'] as const),
  ['font-regular.ttf', chartFonts.regular, 'font/ttf'],
  ['font-bold.ttf', chartFonts.bold, 'font/ttf'],
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
