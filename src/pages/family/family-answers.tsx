import type { FastifyInstance } from 'fastify';
import type { ComponentChildren } from 'preact';
import { z } from 'zod';
import { deviceLabel } from '../../charts/device-label.js';
import { minutesThatFit, stopsWearing } from '../../records/family-answer.js';
import { clinicians } from '../../records/roles.js';
import type { ChildView } from '../../service/child-view/load-child.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import type { FamilyQuestion, WaitingAnswer } from '../../store/contract.js';
import { english } from '../../words/family/english.js';
import { Contact } from '../parts/contact.js';
import { Form, SelectField, Submit } from '../parts/form.js';
import { Section } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { pagesOf, typedRecord } from '../parts/pages-of.js';
import { ChildLink, childPath, devicePath, Go } from '../parts/paths.js';

const q = english.questions;

function said({ answer }: FamilyQuestion): string {
  if (!answer) return '';
  const { toes, marks, place, minutes } = answer;
  return [
    toes && `A finger's width at the toes: ${q.toesAnswers[toes]}.`,
    `Marks: ${q.marksAnswers[marks]}${place && `, ${place}`}${minutes === null ? '' : `, ${minutes} minutes`}.`,
  ]
    .filter(Boolean)
    .join(' ');
}

/** Accepting keeps the marks as a skin check told by the family; nothing else of the record changes. */
function Decide({ question }: { question: FamilyQuestion }) {
  const base = childPath(question.childId);
  return (
    <Form action={`${base}/answers/${encodeURIComponent(question.id)}`} class="row no-print">
      <Submit name="decision" value="accepted" class="main-action">
        Accept as a skin check
      </Submit>
      {question.deviceId && question.answer?.toes && (
        <Go to={devicePath(question.childId, question.deviceId)}>Judge the fit</Go>
      )}
      <Submit name="decision" value="set-aside">
        Set aside
      </Submit>
    </Form>
  );
}

/** An answer that waits, as grave as it is, with what can be decided. */
const Waiting = ({ question, children }: { question: FamilyQuestion; children: ComponentChildren }) => (
  <div class={`flag ${stopsWearing(question.answer!) ? 'act-now' : 'check'}`}>
    <p>{children}</p>
    <Decide question={question} />
  </div>
);

/** On the child's page: ask, see that it was asked, decide on what came back. */
export function QuestionsSection(props: { view: ChildView; questions: readonly FamilyQuestion[] }) {
  const { view, questions } = props;
  const { format } = usePage();
  const worn = view.inUse.filter((v) => v.device.fittedDate !== null);
  const open = questions.find((x) => x.answer === null);
  return (
    <Section id="questions" title="Two questions for the family" class="no-print">
      {questions
        .filter((x) => x.answer)
        .map((x) => (
          <Waiting key={x.id} question={x}>
            <strong>{format.day(x.answer!.at)}:</strong> {said(x)}
            {stopsWearing(x.answer!) && <strong> The family was told to ring today.</strong>}
          </Waiting>
        ))}
      <p>
        Is there a finger's width at the toes; are there marks, where, how long. Asked through the family's
        link; the answer waits here until you accept it and changes no forecast by itself.
      </p>
      {open && (
        <p>
          Asked by {open.askedBy} on {format.day(open.askedAt)}, not answered yet.
        </p>
      )}
      {worn.length === 0 ? (
        <p class="hint">Can be asked once a device is worn.</p>
      ) : (
        <Form action={childPath(view.record.child.id, '/questions')} class="row no-print">
          <SelectField
            label="About"
            id="ask-device"
            name="device"
            of={worn.map(
              (v) =>
                [v.device.id, `${deviceLabel(v.device)}, cast ${format.date(v.device.castDate)}`] as const,
            )}
          />
          <p>
            <Submit>{open ? 'Ask again' : 'Ask the family'}</Submit>
          </p>
        </Form>
      )}
    </Section>
  );
}

/** On the clinician's first page: every answer that waits, marks that last before all else. */
export function WaitingAnswers({ waiting }: { waiting: readonly WaitingAnswer[] }) {
  const { format } = usePage();
  if (waiting.length === 0) return null;
  const ordered = waiting.toSorted(
    (a, b) => Number(stopsWearing(b.answer!)) - Number(stopsWearing(a.answer!)),
  );
  return (
    <Section id="answers" title="Answers from families" class="card">
      {ordered.map((x) => (
        <Waiting key={x.id} question={x}>
          {stopsWearing(x.answer!) && (
            <>
              <span class="tag alert">ring today</span>{' '}
            </>
          )}
          <a href={childPath(x.childId, '#questions')}>{x.childName || x.childId}</a>{' '}
          <small>{format.day(x.answer!.at)}</small>: {said(x)} {x.contact && <Contact text={x.contact} />}
        </Waiting>
      ))}
    </Section>
  );
}

/** For whoever rings: families that told of marks that last, before the first row of the list. */
export function RingToday({ waiting }: { waiting: readonly WaitingAnswer[] }) {
  const urgent = waiting.filter((x) => stopsWearing(x.answer!));
  if (urgent.length === 0) return null;
  return (
    <p class="error" role="alert">
      <strong>Ring now, a clinician must hear of it today:</strong>{' '}
      {urgent.map((x) => (
        <span key={x.id}>
          <ChildLink id={x.childId} name={x.childName} /> {x.contact && <Contact text={x.contact} />}{' '}
        </span>
      ))}
      told us through the link of skin that must be looked at.
    </p>
  );
}

const decided = z.object({ decision: z.enum(['accepted', 'set-aside']) });

/** The clinic's side of the two questions: ask, accept as evidence, set aside. */
export function registerQuestionPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { clock } = deps;
  const { save } = pagesOf(app, deps);

  save('/children/:id/questions', clinicians, async ({ tx, id, body, actor }) => {
    await tx.familyQuestions.ask(id, body.device ?? '', clock.now(), actor);
    return childPath(id, '?notice=family-asked#questions');
  });

  save('/children/:id/answers/:answer', clinicians, async ({ tx, id, params, body, today, actor }) => {
    const { decision } = typedRecord(decided, body);
    const question = await tx.familyQuestions.decide(params.answer, id, decision, clock.now(), actor);
    const { answer: told, deviceId } = question;
    if (decision === 'accepted' && told)
      await tx.skinChecks.add(
        {
          childId: id,
          deviceId,
          date: [clock.dayOf(new Date(told.at)), today].toSorted()[0],
          state: told.marks,
          minutes: minutesThatFit(told),
          where: told.place,
          observer: 'family',
          note: `told through the family's link, accepted by ${actor.name}`,
        },
        today,
        actor,
      );
    return childPath(id, `?notice=answer-${decision}#questions`);
  });
}
