import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { minutesThatFit } from '../../records/family-answer.js';
import { clinicians } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { pagesOf } from '../parts/pages-of.js';
import { childPath } from '../parts/paths.js';
import { typedRecord } from '../parts/typed-record.js';

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
