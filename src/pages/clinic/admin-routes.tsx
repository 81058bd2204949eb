import { PassThrough } from 'node:stream';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { DoorpostError } from '../../errors.js';
import { newPasswordLimits } from '../../records/check/check-account.js';
import { administrators, overseers } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { readLanguages, signLanguage } from '../../service/native-readers.js';
import { shownLog } from '../../service/shown-log.js';
import { passwordAgain } from '../../service/sign-in/password-again.js';
import { signer } from '../../service/sign-offs.js';
import { type Actor, families, roles } from '../../store/contract.js';
import { familyLanguages } from '../../words/family/family-languages.js';
import { cannotBe, pagesOf, refusalOf, typedRecord } from '../parts/pages-of.js';
import { AccessLogPage, UsersPage } from './admin-pages.js';
import { monthLimits, SettingsPage, settingLimits } from './settings-page.js';

const withRole = z.object({ role: z.enum(roles) });

const USER_SAVED = '/users?notice=user-saved';

export function registerAdminPages(app: FastifyInstance, deps: ServiceDeps): void {
  userPages(app, deps);
  settingsPages(app, deps);
  logPage(app, deps);
}

function userPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;
  const { get, post, save } = pagesOf(app, deps);
  const page = async (error = '') => <UsersPage users={await store.users.list()} error={error} />;

  get('/users', administrators, () => page());

  post('/users', administrators, async ({ reply, body }) => {
    const { name = '', displayName = '', password } = body;
    const user = { name, displayName: displayName || name, ...typedRecord(withRole, body), password };
    const error = await refusalOf(
      reply.save(async (tx, actor) => {
        await tx.users.create(user, actor);
        return USER_SAVED;
      }),
    );
    return error ? reply.page(await page(error), 422) : reply;
  });

  save('/users/:id', administrators, async ({ tx, id, body, actor }) => {
    const change = { ...typedRecord(withRole, body), disabled: body.disabled === 'yes' };
    await tx.users.change(id, change, Number(body.version), actor);
    return USER_SAVED;
  });

  post('/users/:id/password', administrators, async ({ reply, id, body: { password }, actor }) => {
    if (!password)
      throw new DoorpostError('invalid-value', 'There is no password in the form', {
        field: 'password',
        accepted: `${newPasswordLimits.minLength} to ${newPasswordLimits.maxLength} characters`,
      });
    await store.users.change(id, { password }, null, actor);
    return reply.redirect(USER_SAVED, 303);
  });
}

function settingsPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store } = deps;
  const { get, post, save } = pagesOf(app, deps);

  const page = async (actor: Actor, error = '') => {
    const [settings, languages, me] = await Promise.all([
      store.settings.get(),
      readLanguages(store),
      store.users.get(actor.userId),
    ]);
    return (
      <SettingsPage settings={settings} languages={languages} askPassword={me.hasPassword} error={error} />
    );
  };

  get('/settings', administrators, ({ actor }) => page(actor));

  post('/settings/backup', administrators, async ({ request, reply, body, actor, today }) => {
    const error = await refusalOf(passwordAgain(request, deps, body.password ?? '', 'for a backup'));
    if (error) return reply.page(await page(actor, error), 422);
    await store.audit.record(actor, 'export', 'backup');
    const file = new PassThrough();
    store.backup(file).catch((problem) => {
      request.log.error({ code: problem.code }, 'a backup was cut short');
      file.destroy(problem);
    });
    return reply
      .type('application/gzip')
      .header('content-disposition', `attachment; filename="doorpost-${today}.jsonl.gz"`)
      .send(file);
  });

  save('/settings/languages', administrators, async ({ tx, body, actor }) => {
    const { language = '', name, profession } = body;
    const reader = signer.safeParse({ name, profession });
    if (!reader.success || !familyLanguages.some((l) => l.language === language))
      throw new DoorpostError('invalid-value', 'A language is signed by a native reader', {
        field: reader.success ? 'language' : 'name',
        accepted: reader.success
          ? familyLanguages.map((l) => l.language).join(', ')
          : 'name and work of the reader, 2 letters at least',
      });
    await signLanguage(tx, language, reader.data, actor);
    return '/settings?notice=settings-saved#languages';
  });

  save('/settings', administrators, async ({ tx, body, actor }) => {
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
    await tx.settings.change(change, Number(body.version), actor);
    return '/settings?notice=settings-saved';
  });
}

function logPage(app: FastifyInstance, deps: ServiceDeps): void {
  pagesOf(app, deps).get('/access-log', overseers, async ({ query, actor }) => {
    const { childId = '', action = '', from = '', to = '', cursor } = query;
    const page = await shownLog(
      deps.store,
      {
        childId: childId || undefined,
        action: action || undefined,
        from: from || undefined,
        to: to ? `${to}T23:59:59.999Z` : undefined,
      },
      { limit: 100, cursor: cursor || null },
      actor,
    );
    return <AccessLogPage page={page} filter={{ childId, action, from, to }} />;
  });
}
