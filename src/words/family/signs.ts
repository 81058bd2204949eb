import type { Region } from '../../rules/fit-rule.js';
import type { Signs } from './family-words.js';

type Limb = 'hand' | 'boots' | 'shoe' | 'knee' | 'leg';

/** What to look for, in one language. Every language has every phrase, so that a caution is in all or in none. */
export interface SignPhrases {
  readonly titles: Readonly<Record<'limb' | 'head' | 'trunk' | 'hip', string>>;
  /** Redness that lasts; what is not open; what is. */
  readonly skin: readonly [lasting: string, notOpen: string, open: string];
  /** A hip orthosis stays on, so nobody can count twenty minutes. */
  readonly skinHip: string;
  readonly unwell: string;
  readonly unwellHip: string;
  /** In place of pain where the skin cannot warn. */
  readonly swollen: string;
  /** Where the skin cannot warn a numb foot is no sign to wait for. */
  readonly cold: Readonly<Record<'toes' | 'toesInsensate' | 'fingers' | 'fingersInsensate', string>>;
  readonly broken: string;
  readonly more: Readonly<Record<'head' | 'trunk' | 'hip' | Limb, readonly string[]>>;
}

const LIMB_OF: Partial<Record<Region, Limb>> = {
  'wrist-hand': 'hand',
  boots: 'boots',
  shoe: 'shoe',
  knee: 'knee',
};

/** The signs of one kind of device, in the same order in every language. */
export function signsOf(p: SignPhrases, region: Region, insensate: boolean): Signs {
  const unwell = insensate ? [] : [p.unwell];
  if (region === 'head' || region === 'trunk')
    return { title: p.titles[region], signs: [...p.skin, ...unwell, ...p.more[region], p.broken] };
  if (region === 'hip') {
    const own = insensate ? p.more.hip : [p.unwellHip, ...p.more.hip];
    return { title: p.titles.hip, signs: [p.skinHip, ...p.skin.slice(1), ...own, p.broken] };
  }
  const limb = LIMB_OF[region] ?? 'leg';
  const ends = limb === 'hand' ? 'fingers' : 'toes';
  const cold = p.cold[insensate ? (`${ends}Insensate` as const) : ends];
  return {
    title: p.titles.limb,
    signs: [...p.skin, insensate ? p.swollen : p.unwell, cold, ...p.more[limb], p.broken],
  };
}
