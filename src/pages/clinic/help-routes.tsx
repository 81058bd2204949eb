import type { FastifyInstance } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { everyone } from '../../records/roles.js';
import { HelpPage } from './help-page.js';
import { readers } from './help-words.js';

/** Help of one screen for each kind of reader; every page's Help leads to that of who is signed in. */
export function registerHelpPages(app: FastifyInstance): void {
  app.get('/help', { config: { access: everyone } }, (request, reply) =>
    reply.redirect(`/help/${request.user?.role ?? 'clinician'}`, 303),
  );
  app.get<{ Params: { reader: string } }>(
    '/help/:reader',
    { config: { access: everyone } },
    async (request, reply) => {
      const reader = readers.find((r) => r === request.params.reader);
      if (!reader) throw new DoorpostError('not-found', 'There is no such page of help');
      return reply.page(<HelpPage reader={reader} />);
    },
  );
}
