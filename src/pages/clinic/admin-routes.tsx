import { PassThrough } from 'node:stream';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { DoorpostError } from '../../errors.js';
import { newPasswordLimits } from '../../records/check/check-account.js';
import { administrators, overseers } from '../../records/roles.js';
import { actorOf } from '../../service/access.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { readLanguages, signLanguage } from '../../service/native-readers.js';
import { shownLog } from '../../service/shown-log.js';
import { passwordAgain } from '../../service/sign-in/password-again.js';
import { signer } from '../../service/sign-offs.js';
import { families, roles } from '../../store/contract.js';
import { familyLanguages } from '../../words/family/family-languages.js';
import { cannotBe } from '../parts/cannot-be.js';
import { refusalOf } from '../parts/refusal-of.js';
import type { Fields } from '../parts/route-types.js';
import { typedRecord } from '../parts/typed-record.js';
import { AccessLogPage, UsersPage } from './admin-pages.js';
import { monthLimits, SettingsPage, settingLimits } from './settings-page.js';

type Admin = { Params: { id: string }; Querystring: Fields; Body: Fields };

const withRole = z.object({ role: z.enum(roles) });

const USER_SAVED = '/users?notice=user-saved';

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: a list of pages, each short
export function registerAdminPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;
  const access = { config: { access: administrators } };

  app.get('/users', access, async (_request, reply) =>
    reply.page(<UsersPage users={await store.users.list()} error="" />),
  );

  app.post<Admin>('/users', access, async (request, reply) => {
    const { name = '', displayName = '', password } = request.body ?? {};
    const user = { name, displayName: displayName || name, ...typedRecord(withRole, request.body), password };
    const error = await refusalOf(
      reply.save(async (tx, actor) => {
        await tx.users.create(user, actor);
        return USER_SAVED;
      }),
    );
    if (!error) return reply;
    const users = await store.users.list();
    return reply.page(<UsersPage users={users} error={error} />, 422);
  });

  app.post<Admin>('/users/:id', access, async (request, reply) => {
    const { disabled, version } = request.body ?? {};
    const change = { ...typedRecord(withRole, request.body), disabled: disabled === 'yes' };
    return reply.save(async (tx, actor) => {
      await tx.users.change(request.params.id, change, Number(version), actor);
      return USER_SAVED;
    });
  });

  app.post<Admin>('/users/:id/password', access, async (request, reply) => {
    const { password } = request.body ?? {};
    if (!password)
      throw new DoorpostError('invalid-value', 'There is no password in the form', {
        field: 'password',
        accepted: `${newPasswordLimits.minLength} to ${newPasswordLimits.maxLength} characters`,
      });
    await store.users.change(request.params.id, { password }, null, actorOf(request));
    return reply.redirect('/users?notice=user-saved', 303);
  });

  const showSettings = async (request: FastifyRequest, reply: FastifyReply, error = '') => {
    const [settings, languages, me] = await Promise.all([
      store.settings.get(),
      readLanguages(store),
      store.users.get(actorOf(request).userId),
    ]);
    const page = (
      <SettingsPage settings={settings} languages={languages} askPassword={me.hasPassword} error={error} />
    );
    return reply.page(page, error ? 422 : 200);
  };

  app.get('/settings', access, (request, reply) => showSettings(request, reply));

  app.post<Admin>('/settings/backup', access, async (request, reply) => {
    const error = await refusalOf(passwordAgain(request, deps, request.body?.password ?? '', 'for a backup'));
    if (error) return showSettings(request, reply, error);
    await store.audit.record(actorOf(request), 'export', 'backup');
    const file = new PassThrough();
    store.backup(file).catch((problem) => {
      request.log.error({ code: problem.code }, 'a backup was cut short');
      file.destroy(problem);
    });
    return reply
      .type('application/gzip')
      .header('content-disposition', `attachment; filename="doorpost-${deps.clock.today()}.jsonl.gz"`)
      .send(file);
  });

  app.post<Admin>('/settings/languages', access, async (request, reply) => {
    const { language = '', ...rest } = request.body ?? {};
    const reader = signer.safeParse({ name: rest.name, profession: rest.profession });
    if (!reader.success || !familyLanguages.some((l) => l.language === language))
      throw new DoorpostError('invalid-value', 'A language is signed by a native reader', {
        field: reader.success ? 'language' : 'name',
        accepted: reader.success
          ? familyLanguages.map((l) => l.language).join(', ')
          : 'name and work of the reader, 2 letters at least',
      });
    return reply.save(async (tx, actor) => {
      await signLanguage(tx, language, reader.data, actor);
      return '/settings?notice=settings-saved#languages';
    });
  });

  app.post<Admin>('/settings', access, async (request, reply) => {
    const body = request.body ?? {};
    const number = (field: string, low = 0, high = Number.POSITIVE_INFINITY): number => {
      const value = Number(body[field]);
      if (!body[field] || !(value >= low && value <= high)) cannotBe(field, body[field], `${low} to ${high}`);
      return value;
    };
    const { acceptedChance, harmInsensate, clinicName, contact } = settingLimits;
    const change = {
      clinicName: (body.clinicName ?? '').slice(0, clinicName.maxLength),
      contact: (body.contact ?? '').slice(0, contact.maxLength),
      acceptedChance: number('acceptedChance', acceptedChance.min! * 100, acceptedChance.max! * 100) / 100,
      harmInsensate: number('harmInsensate', harmInsensate.min, harmInsensate.max),
      eligibleAfterMonths: Object.fromEntries(
        families.flatMap((f) =>
          body[`months-${f}`] ? [[f, number(`months-${f}`, monthLimits.min, monthLimits.max)]] : [],
        ),
      ),
    };
    return reply.save(async (tx, actor) => {
      await tx.settings.change(change, Number(body.version), actor);
      return '/settings?notice=settings-saved';
    });
  });

  app.get<Admin>('/access-log', { config: { access: overseers } }, async (request, reply) => {
    const { childId = '', action = '', from = '', to = '', cursor } = request.query;
    const page = await shownLog(
      store,
      {
        childId: childId || undefined,
        action: action || undefined,
        from: from || undefined,
        to: to ? `${to}T23:59:59.999Z` : undefined,
      },
      { limit: 100, cursor: cursor || null },
      actorOf(request),
    );
    return reply.page(<AccessLogPage page={page} filter={{ childId, action, from, to }} />);
  });
}
