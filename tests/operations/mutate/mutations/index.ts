import type { MutationGroup } from '../mutation.js';
import { doors } from './doors.js';
import { forecast } from './forecast.js';
import { growth } from './growth.js';
import { people } from './people.js';
import { recall } from './recall.js';

export const mutations: readonly MutationGroup[] = [...growth, ...forecast, ...recall, ...people, ...doors];
