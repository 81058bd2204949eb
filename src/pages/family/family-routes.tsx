import type { FastifyInstance } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { familyAnswerFields, stopsWearing } from '../../records/family-answer.js';
import { clinicians, staff } from '../../records/roles.js';
import { chartableMeasures, growthSpec } from '../../service/child-view/child-charts.js';
import { type ChildView, loadChild, posteriorOf } from '../../service/child-view/load-child.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { isSigned, readLanguages } from '../../service/native-readers.js';
import { type Actor, type FamilyQuestion, newFamilyLink, seesDiagnoses } from '../../store/contract.js';
import { familyWords, firstLanguage } from '../../words/family/family-languages.js';
import { wornDevice } from '../../words/family/worn-device.js';
import { drawFor, NOT_DRAWN } from '../parts/chart.js';
import { type Asked, type Fields, pagesOf, typedRecord } from '../parts/pages-of.js';
import { childPath, wholeAddress } from '../parts/paths.js';
import { registerQuestionPages } from './family-answers.js';
import { FamilyLinkPage } from './family-link-page.js';
import { FamilyPage } from './family-page.js';
import { AnsweredPage, hasToes, QuestionsForm } from './questions-form.js';

/** Answers a minute from one address: a family sends one. */
const ANSWERS_A_MINUTE = 6;

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: the two doors to one sheet, and what they share
export function registerFamilyPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, clock } = deps;
  const { get, post, save } = pagesOf(app, deps);
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

  const sheet = async ({ request, reply, query, today }: Asked, shown: Shown) => {
    const { childId, actor, path, asked } = shown;
    const view = await loadChild(childId, deps, actor);
    const [{ value: settings }, languages] = await Promise.all([store.settings.get(), readLanguages(store)]);
    const telephone = shown.linkUntil === null ? undefined : request.headers['accept-language'];
    const words = familyWords(
      shown.language ?? query.language ?? languageOf(view, settings.language, telephone),
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

  get('/children/:id/family', staff, (asked) => {
    const { id: childId, actor } = asked;
    const path = childPath(childId, '/family');
    return sheet(asked, { childId, actor, path, linkUntil: null, asked: null });
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

  get('/family/:token', 'public', async (asked) => sheet(asked, await opened(asked.params.token)));

  const answer = async (asked: Asked) => {
    const { reply, body } = asked;
    const shown = await opened(asked.params.token);
    const view = await loadChild(shown.childId, deps, shown.actor);
    const worn = shown.asked && wornOf(view, shown.asked);
    if (!worn || shown.asked?.id !== body.question)
      throw new DoorpostError('not-found', 'These questions are not open any more');
    const read = readAnswer(body, hasToes(worn.region));
    if (!read.success) return sheet(asked, { ...shown, language: body.language, typed: body });
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
  };
  post('/family/:token/answers', 'public', answer, {
    rateLimit: { max: ANSWERS_A_MINUTE, timeWindow: '1 minute' },
  });

  post('/children/:id/links', clinicians, async ({ request, reply, id, body, actor }) => {
    const { label, days } = typedRecord(newFamilyLink, body);
    const link = await store.familyLinks.create(id, label, days, clock.now(), actor);
    const url = wholeAddress(request, deps, `/family/${encodeURIComponent(link.token)}`);
    // Shown in the answer itself, once: a redirect would put the token into history and logs.
    return reply.page(<FamilyLinkPage childId={id} link={link} url={url} />, 201);
  });

  save('/children/:id/links/withdraw', clinicians, async ({ tx, id, body, actor }) => {
    const wanted = body.link ?? '';
    const own = await store.familyLinks.list(id, actor);
    if (!own.some((l) => l.id === wanted))
      throw new DoorpostError('not-found', 'This child has no such link');
    await tx.familyLinks.withdraw(wanted, clock.now(), actor);
    return childPath(id, '?notice=link-withdrawn#links');
  });
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
