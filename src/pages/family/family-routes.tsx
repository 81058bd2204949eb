import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { renderSvg } from '../../charts/render-chart.js';
import { DoorpostError } from '../../errors.js';
import { actorOf } from '../../service/access.js';
import { chartableMeasures, growthSpec } from '../../service/child-view/child-charts.js';
import { loadChild, posteriorOf } from '../../service/child-view/load-child.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import type { Actor } from '../../store/contract.js';
import { familyWords } from '../../words/family/family-words.js';
import { pageContext, sendPage } from '../parts/page-context.js';
import { clinicians, type Form, staff } from '../parts/route-types.js';
import { FamilyLinkPage } from './family-link-page.js';
import { FamilyPage } from './family-page.js';

type Sheet = { Params: { id: string; token: string }; Querystring: Form; Body: Form };

export function registerFamilyPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, clock } = deps;

  const sheet = async (
    request: FastifyRequest<Sheet>,
    reply: FastifyReply,
    childId: string,
    actor: Actor,
    path: string,
  ) => {
    const today = clock.today();
    const view = await loadChild(childId, deps, actor);
    const words = familyWords(request.query.language ?? view.record.child.language);
    // A scheduler's view of the record lacks what the growth estimate needs; the sheet then goes without a chart.
    const whole = actor.role === 'clinician' || actor.role === 'family';
    const [measure] = chartableMeasures(view);
    const posterior = whole && measure ? posteriorOf(view.record, deps) : null;
    const draw = (widthPx: number) =>
      whole && measure
        ? renderSvg(
            growthSpec(view, measure, posterior, today, {
              audience: 'family',
              language: words.language,
              widthPx,
            }),
          )
        : '';
    const [wide, narrow] = await Promise.all([draw(720), draw(340)]);
    const [context, { value: settings }] = await Promise.all([
      pageContext(request, reply, deps),
      store.settings.get(),
    ]);
    return sendPage(
      reply.header('referrer-policy', 'no-referrer'),
      <FamilyPage
        context={context}
        view={view}
        words={words}
        charts={{ wide, narrow }}
        contact={settings.contact}
        languageHref={(language) => `${path}?language=${language}`}
      />,
    );
  };

  app.get<Sheet>('/children/:id/family', { config: { access: staff } }, async (request, reply) => {
    const { id } = request.params;
    return sheet(request, reply, id, actorOf(request), `/children/${encodeURIComponent(id)}/family`);
  });

  app.get<Sheet>('/family/:token', { config: { access: 'public' } }, async (request, reply) => {
    const { token } = request.params;
    const { childId, actor } = await store.familyLinks.open(token, clock.now());
    return sheet(request, reply, childId, actor, `/family/${encodeURIComponent(token)}`);
  });

  app.post<Sheet>('/children/:id/links', { config: { access: clinicians } }, async (request, reply) => {
    const { id } = request.params;
    const { label = '', days = '' } = request.body ?? {};
    const length = Number(days);
    if (!Number.isInteger(length) || length < 1 || length > 400)
      throw new DoorpostError('invalid-value', `A link cannot work for '${days}' days`, {
        field: 'days',
        given: days,
        accepted: '1 to 400',
      });
    const link = await store.familyLinks.create(
      id,
      label.slice(0, 60),
      length,
      clock.now(),
      actorOf(request),
    );
    const origin = deps.config.publicUrl ?? `${request.protocol}://${request.host}`;
    // Shown in the answer itself, once: a redirect would put the token into history and logs.
    return sendPage(
      reply,
      <FamilyLinkPage
        context={await pageContext(request, reply, deps)}
        childId={id}
        link={link}
        url={`${origin}/family/${encodeURIComponent(link.token)}`}
      />,
      201,
    );
  });

  app.post<Sheet>(
    '/children/:id/links/withdraw',
    { config: { access: clinicians } },
    async (request, reply) => {
      const { id } = request.params;
      const wanted = request.body?.link ?? '';
      const own = await store.familyLinks.list(id, actorOf(request));
      if (!own.some((l) => l.id === wanted))
        throw new DoorpostError('not-found', 'This child has no such link');
      await store.familyLinks.withdraw(wanted, clock.now(), actorOf(request));
      return reply.redirect(`/children/${encodeURIComponent(id)}?notice=link-withdrawn#links`, 303);
    },
  );
}
