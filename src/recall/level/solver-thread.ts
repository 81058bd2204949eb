import { answerAsked } from '../../launch/ask-thread.js';
import { type Programme, type SolveOptions, solveHere } from './highs-solver.js';

answerAsked(([programme, options]: [Programme, SolveOptions]) => solveHere(programme, options));
