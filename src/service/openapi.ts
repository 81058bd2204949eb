import swagger from '@fastify/swagger';
import type { FastifyInstance } from 'fastify';
import { jsonSchemaTransform } from 'fastify-type-provider-zod';
import { version } from './version.js';

/** OpenAPI 3.1 of everything under /api, made from the very schemas that requests are checked with. */
export async function registerOpenapi(app: FastifyInstance): Promise<void> {
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'doorpost',
        version,
        description:
          'When will each child outgrow each orthosis? Lengths are mm, weights kg, dates YYYY-MM-DD.\n\n' +
          'Sign in with POST /api/session and send the token as `Authorization: Bearer <token>`. ' +
          'A write may carry an Idempotency-Key: repeated, it is answered as before and done once. ' +
          'A change of something versioned carries If-Match with the ETag read before. ' +
          'Errors are application/problem+json with a stable `code`.\n\n' +
          'A forecast is an estimate from measurements, never a diagnosis and never a reason to skip a review.',
      },
      components: {
        securitySchemes: {
          bearer: { type: 'http', scheme: 'bearer' },
          cookie: { type: 'apiKey', in: 'cookie', name: 'doorpost' },
        },
      },
      security: [{ bearer: [] }],
    },
    hideUntagged: true,
    transform: jsonSchemaTransform,
  });
  app.addHook('onRoute', (route) => {
    if (!route.schema?.tags) return;
    const { access } = route.config ?? {};
    const who = access === 'public' ? 'Needs no sign-in.' : `For: ${access?.join(', ')}.`;
    route.schema = {
      ...route.schema,
      description: [route.schema.description, who].filter(Boolean).join(' '),
      ...(access === 'public' ? { security: [] } : {}),
    };
  });
  app.get('/openapi.json', { config: { access: 'public' } }, async () => app.swagger());
}
