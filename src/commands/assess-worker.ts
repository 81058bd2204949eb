import { answerAsked } from '../launch/ask-thread.js';
import { type Answer, type Asked, answering } from './assess-in-parallel.js';

/** Assesses the children handed over, by the settings handed over before them. */
let answer: ReturnType<typeof answering>;

answerAsked<Asked, Answer[]>(async (asked) => {
  if (!('rules' in asked)) return asked.map(answer);
  answer = answering(asked);
  return [];
});
