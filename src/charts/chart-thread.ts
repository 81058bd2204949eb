import { answerAsked, sayToAsker } from '../launch/ask-thread.js';
import type { Asked } from './draw-aside.js';
import { drawHere, hearChartWarnings } from './render-chart.js';

hearChartWarnings(sayToAsker);
answerAsked(({ spec, slim }: Asked) => drawHere(JSON.parse(spec), slim));
