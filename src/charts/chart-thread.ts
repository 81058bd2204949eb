import { answerAsked, sayToAsker } from '../launch/ask-thread.js';
import { hearChartWarnings, renderSvg } from './render-chart.js';

hearChartWarnings(sayToAsker);
answerAsked(renderSvg);
