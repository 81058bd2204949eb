import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { minutesThatFit } from '../../records/family-answer.js';
import { clinicians } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { childPath } from '../parts/paths.js';
import type { Fields } from '../parts/route-types.js';
import { typedRecord } from '../parts/typed-record.js';

const decided = z.object({ decision: z.enum(['accepted', 'set-aside']) });
type Asked = { Params: { id: string; answer: string }; Body: Fields };

/** The clinic's side of the two questions: ask, accept as evidence, set aside. */
export function registerQuestionPages(app: FastifyInstance, { clock }: ServiceDeps): void {
  app.post<Asked>('/children/:id/questions', { config: { access: clinicians } }, async (request, reply) => {
    const { id } = request.params;
    return reply.save(async (tx, actor) => {
      await tx.familyQuestions.ask(id, request.body?.device ?? '', clock.now(), actor);
      return childPath(id, '?notice=family-asked#questions');
    });
  });

  app.post<Asked>(
    '/children/:id/answers/:answer',
    { config: { access: clinicians } },
    async (request, reply) => {
      const { id, answer } = request.params;
      const { decision } = typedRecord(decided, request.body);
      const next = childPath(id, `?notice=answer-${decision}#questions`);
      return reply.save(async (tx, actor) => {
        const { answer: told, deviceId } = await tx.familyQuestions.decide(
          answer,
          id,
          decision,
          clock.now(),
          actor,
        );
        if (decision === 'set-aside' || !told) return next;
        const { at, marks, place } = told;
        const today = clock.today();
        await tx.skinChecks.add(
          {
            childId: id,
            deviceId,
            date: [clock.dayOf(new Date(at)), today].toSorted()[0],
            state: marks,
            minutes: minutesThatFit(told),
            where: place,
            observer: 'family',
            note: `told through the family's link, accepted by ${actor.name}`,
          },
          today,
          actor,
        );
        return next;
      });
    },
  );
}
