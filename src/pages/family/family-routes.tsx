import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { familyAnswerFields, stopsWearing } from '../../records/family-answer.js';
import { clinicians, staff } from '../../records/roles.js';
import { actorOf } from '../../service/access.js';
import { chartableMeasures, growthSpec } from '../../service/child-view/child-charts.js';
import { type ChildView, loadChild, posteriorOf } from '../../service/child-view/load-child.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { isSigned, readLanguages } from '../../service/native-readers.js';
import { type Actor, type FamilyQuestion, newFamilyLink, seesDiagnoses } from '../../store/contract.js';
import { familyWords, firstLanguage } from '../../words/family/family-languages.js';
import { wornDevice } from '../../words/family/worn-device.js';
import { drawFor, NOT_DRAWN } from '../parts/chart.js';
import { childPath, wholeAddress } from '../parts/paths.js';
import type { Fields } from '../parts/route-types.js';
import { typedRecord } from '../parts/typed-record.js';
import { AnsweredPage } from './answered-page.js';
import { FamilyLinkPage } from './family-link-page.js';
import { FamilyPage } from './family-page.js';
import { hasToes, QuestionsForm } from './questions-form.js';
import { registerQuestionPages } from './questions-routes.js';

type Sheet = { Params: { id: string; token: string }; Querystring: Fields; Body: Fields };
/** Answers a minute from one address: a family sends one. */
const ANSWERS_A_MINUTE = 6;

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: the two doors to one sheet, and what they share
export function registerFamilyPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, clock } = deps;
  registerQuestionPages(app, deps);

  interface Shown {
    readonly childId: string;
    readonly actor: Actor;
    readonly path: string;
    readonly linkUntil: string | null;
    /** Only through a link: the clinic's print asks nothing. */
    readonly asked: FamilyQuestion | null;
    readonly language?: string;
    readonly typed?: Fields;
  }

  const sheet = async (request: FastifyRequest<Sheet>, reply: FastifyReply, shown: Shown) => {
    const { childId, actor, path, asked } = shown;
    const today = clock.today();
    const view = await loadChild(childId, deps, actor);
    const [{ value: settings }, languages] = await Promise.all([store.settings.get(), readLanguages(store)]);
    const telephone = shown.linkUntil === null ? undefined : request.headers['accept-language'];
    const words = familyWords(
      shown.language ?? request.query.language ?? languageOf(view, settings.language, telephone),
    );
    // A scheduler's view of the record lacks what the growth estimate needs; the sheet then goes without a chart.
    const whole = seesDiagnoses(actor);
    const [measure] = chartableMeasures(view);
    const posterior = whole && measure ? posteriorOf(view.record, deps) : null;
    const chart =
      whole && measure
        ? await drawFor(request, (widthPx) =>
            growthSpec(view, measure, posterior, today, {
              audience: 'family',
              language: words.language,
              widthPx,
            }),
          )
        : NOT_DRAWN;
    const worn = asked && wornOf(view, asked);
    return reply.header('referrer-policy', 'no-referrer').page(
      <FamilyPage
        view={view}
        words={words}
        checked={isSigned(languages, words)}
        chart={chart}
        contact={settings.contact}
        linkUntil={shown.linkUntil}
        languageHref={(language) => `${path}?language=${language}`}
      >
        {worn && (
          <QuestionsForm
            words={words}
            region={worn.region}
            device={words.device(worn)}
            questionId={asked.id}
            action={`${path}/answers`}
            typed={shown.typed ?? {}}
            incomplete={shown.typed !== undefined}
          />
        )}
      </FamilyPage>,
      shown.typed ? 422 : 200,
    );
  };

  app.get<Sheet>('/children/:id/family', { config: { access: staff } }, async (request, reply) => {
    const { id } = request.params;
    const path = childPath(id, '/family');
    return sheet(request, reply, {
      childId: id,
      actor: actorOf(request),
      path,
      linkUntil: null,
      asked: null,
    });
  });

  const opened = async (token: string): Promise<Shown> => {
    const { childId, actor, expiresAt } = await store.familyLinks.open(token, clock.now());
    const questions = await store.familyQuestions.ofChild(childId);
    return {
      childId,
      actor,
      path: `/family/${encodeURIComponent(token)}`,
      linkUntil: clock.dayOf(new Date(expiresAt)),
      asked: questions.find((q) => q.answer === null) ?? null,
    };
  };

  app.get<Sheet>('/family/:token', { config: { access: 'public' } }, async (request, reply) =>
    sheet(request, reply, await opened(request.params.token)),
  );

  app.post<Sheet>(
    '/family/:token/answers',
    { config: { access: 'public', rateLimit: { max: ANSWERS_A_MINUTE, timeWindow: '1 minute' } } },
    async (request, reply) => {
      const body = request.body ?? {};
      const shown = await opened(request.params.token);
      const view = await loadChild(shown.childId, deps, shown.actor);
      const worn = shown.asked && wornOf(view, shown.asked);
      if (!worn || shown.asked?.id !== body.question)
        throw new DoorpostError('not-found', 'These questions are not open any more');
      const read = readAnswer(body, hasToes(worn.region));
      if (!read.success) return sheet(request, reply, { ...shown, language: body.language, typed: body });
      await store.familyQuestions.answer(shown.asked.id, shown.childId, read.data, clock.now(), shown.actor);
      const { value: settings } = await store.settings.get();
      return reply
        .header('referrer-policy', 'no-referrer')
        .page(
          <AnsweredPage
            words={familyWords(body.language ?? view.record.child.language)}
            worn={worn}
            stop={stopsWearing(read.data)}
            contact={settings.contact}
            back={`${shown.path}?language=${encodeURIComponent(body.language ?? '')}`}
          />,
        );
    },
  );

  app.post<Sheet>('/children/:id/links', { config: { access: clinicians } }, async (request, reply) => {
    const { id } = request.params;
    const { label, days } = typedRecord(newFamilyLink, request.body);
    const link = await store.familyLinks.create(id, label, days, clock.now(), actorOf(request));
    // Shown in the answer itself, once: a redirect would put the token into history and logs.
    return reply.page(
      <FamilyLinkPage
        childId={id}
        link={link}
        url={wholeAddress(request, deps, `/family/${encodeURIComponent(link.token)}`)}
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
      return reply.save(async (tx, actor) => {
        await tx.familyLinks.withdraw(wanted, clock.now(), actor);
        return childPath(id, '?notice=link-withdrawn#links');
      });
    },
  );
}

/** The record's language where it says another than the clinic's own; else the telephone's; else the clinic's. */
function languageOf(view: ChildView, clinic: string, telephone: string | undefined): string {
  const own = view.record.child.language;
  if (own && own.split('-')[0] !== clinic.split('-')[0]) return own;
  const asked = (telephone ?? '').split(',').map((part) => part.split(';')[0].trim());
  return firstLanguage(asked) ?? own ?? clinic;
}

/** The device asked about, if it is still worn. */
function wornOf(view: ChildView, { deviceId }: FamilyQuestion) {
  const found = view.inUse.find((v) => v.device.id === deviceId);
  return found ? wornDevice(found.device, view.rules) : null;
}

/** What a family said; of a device with toes in it nothing is taken without them. */
const readAnswer = (body: Fields, toes: boolean) =>
  familyAnswerFields.safeParse({
    toes: toes ? (body.toes ?? '') : null,
    marks: body.marks,
    place: body.place ?? '',
    minutes: body.minutes ? Number(body.minutes) : null,
  });
