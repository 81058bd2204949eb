import type { MutationGroup } from '../mutation.js';
import { answered } from './answered.js';
import { choices } from './choices.js';
import { controls } from './controls.js';
import { doors } from './doors.js';
import { edges } from './edges.js';
import { entered } from './entered.js';
import { forecast } from './forecast.js';
import { growth } from './growth.js';
import { judged } from './judged.js';
import { measured } from './measured.js';
import { outcomes } from './outcomes.js';
import { people } from './people.js';
import { recall } from './recall.js';
import { records } from './records.js';
import { reviewed } from './reviewed.js';
import { rights } from './rights.js';
import { tables } from './tables.js';
import { watchfulness } from './watchfulness.js';

export const lists: Readonly<Record<string, readonly MutationGroup[]>> = {
  growth,
  forecast,
  recall,
  records,
  watchfulness,
  people,
  doors,
  choices,
  outcomes,
  tables,
  rights,
  judged,
  measured,
  entered,
  answered,
  edges,
  controls,
  reviewed,
};

export const mutations: readonly MutationGroup[] = Object.values(lists).flat();
