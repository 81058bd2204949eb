import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { readNote } from '../../../src/forecast/flags/notes/read-note.js';
import type { Region } from '../../../src/rules/fit-rule.js';
import { classWords } from './class-words.js';

/**
 * Invented notes with what must be found in each; without a kind it is harmless. Each was written down before it was first
 * read, by several writers, some of whom had not seen the reader. Common practice, no source.
 */
const notes: { finds: string; region: Region; note: string }[] = parse(
  readFileSync(fileURLToPath(new URL('what-notes-tell.csv', import.meta.url)), 'utf8'),
  { columns: true },
);
const kindsIn = (note: string, region: Region = 'ankle-foot'): string[] =>
  readNote(note, region, '2026-11-20').findings.map((f) => f.kind);

describe('free notes, clause by clause (common practice, no source)', () => {
  it('sees in each note what must be found in it', () => {
    const missed = notes.filter(({ finds, region, note }) => {
      const seen = finds === '' ? [] : kindsIn(note, region);
      return finds !== '' && !finds.split(' ').every((kind) => seen.includes(kind));
    });
    expect(missed).toEqual([]);
  });
  it('finds nothing in the harmless ones', () => {
    expect(notes.filter((n) => n.finds === '' && kindsIn(n.note, n.region).length > 0)).toEqual([]);
  });

  it.each([
    ['doesnt want to wear it at night heel is blistered', 'skin-open'],
    ['no improvement in redness over heel', 'skin-mark'],
    ['blister on heel almost healed', 'skin-open'],
    ['Red mark over navicular at home. No new redness today', 'skin-mark'],
    ['Blister on L heel, no redness today', 'skin-open'],
    ['red area over heel noticed 2 hours ago', 'skin-mark'],
    ['heel red 5 mins most days 45 mins on Friday', 'skin-lasting'],
    ['sits low under the arm and presses at the waist', 'skin-mark', 'trunk'],
    ['presses on the inner ankle bone; heat gun was away for repair', 'skin-mark'],
    ['mother rang: ankle joint cracked through; not worn since', 'broken'],
  ] as [string, string, Region?][])('reads the word that turns it: %s', (note, kind, region) =>
    expect(kindsIn(note, region)).toEqual([kind]),
  );

  it.each(classWords)('sees every word for %s in the region %s', (_, region, note, list) => {
    const unseen = list
      .split('|')
      .map((word) => note.replace('{}', word))
      .filter((n) => kindsIn(n, region).length === 0);
    expect(unseen).toEqual([]);
  });

  const seenIn = (notes: readonly string[]) => notes.filter((n) => kindsIn(n).length > 0);
  const cross = (one: readonly string[], other: readonly string[]) =>
    one.flatMap((a) => other.map((b) => `${a} ${b}`));
  it.each([
    cross(
      ['He cries', 'She screams', 'was tearful', 'kicks off'],
      ['each morning when it goes on', 'whenever we put them on', 'every time', 'with it on'],
    ),
    cross(
      ['the arch has', 'left heel', 'hindfoot now', 'her knee'],
      ['dropped', 'rolls in', 'collapsing', 'changed shape'],
    ),
    cross(['sore', 'knee pain', 'foot hurts'], ['after PE', 'after football', 'at swimming']),
    cross(['dad texted a photo:', 'Mum writes:', 'gran rang, says:'], ['blister on heel', 'heel raw']),
    cross(['mum lost', 'they lost'], ['one on the ferry', 'them at the beach', 'it']),
    cross(
      ['A dent on the shin', 'small line on calf'],
      ['that is still there an hour later', 'stays all evening'],
    ),
    cross(
      ['Bladder accidents', 'Tingling toes', 'cannot feel her feet'],
      ['for the last month', 'over the past 3 weeks'],
    ),
    cross(['Roetung Knoechel', 'Haut geroetet Ferse', 'friction burn dorsum'], ['', 'nach 1 Std noch da']),
    cross(['sensation to light touch', 'feeling in toes'], ['now absent', 'is reduced today']),
    cross(['gave up walking', 'has given up standing'], ['over the weekend', 'since Monday']),
    cross(['his toes are', 'the foot goes'], ['white and cold', 'blue in it', 'pale']),
    cross(['heel keeps', 'her heel'], ['lifting out', 'popping up', 'slipping', 'off the plate']),
    cross(['the AFO is', 'brace'], ['too big now', 'swimming on her', 'sliding down', 'rides up']),
    cross(['mum cannot do', 'dad can’t do'], ['the brace up', 'her splint up at the top']),
    cross(['ankle strap keeps pinging', 'velcro comes', 'buckle popping'], ['open', 'undone at school']),
    cross(['DF now -10 (was', 'dorsiflexion -5 R, previously'], ['neutral)', '+5)', 'plantigrade)']),
    cross(['breathes fast', 'breathing hard', 'laboured breathing'], ['in the jacket', 'at night']),
    cross(['big toenail', 'nail'], ['lifted', 'going black', 'came off at the end of the plate']),
    cross(
      ['left leg', 'toes'],
      ['not moving', 'hardly moves since the strap', 'not lifting', 'doesn’t move in it'],
    ),
    cross(['redness', 'red patch on the heel'], ['slow to resolve', 'there since Monday', 'for 35m']),
    cross(['was walking with a frame,', 'used to run,'], ['now only stands', 'now just sits']),
    cross(['won’t let us', 'will not let anyone'], ['near his foot', 'do the strap up', 'touch it']),
    cross(['dad', 'school'], ['super-glued the hinge', 'taped the strap', 'has patched the footplate']),
    cross(['rubbed at the edge, broken', 'chafed, split'], ['in two places', 'over the weekend']),
  ])('sees it however it is put: %#', (...notes) =>
    expect(notes.filter((n) => !seenIn(notes).includes(n))).toEqual([]),
  );
  it.each([
    cross(['hardly any', 'barely any', 'no', 'nil'], ['marks', 'redness', 'rubbing']),
    cross(
      ['Redness at trim last time, edge rolled,', 'Blister at last visit;'],
      ['no redness or blister today'],
    ),
    cross(['broke his', 'broke the', 'broke her'], ['old record', 'rules at school']),
    cross(['fell off', 'falling from', 'fell out of'], ['the sofa', 'a trampoline']),
    cross(['brother’s splint', 'his sister’s insole'], ['was broken by the dog', 'has a crack', 'is lost']),
    cross(['painted toenails', 'nails painted', 'cast dyed'], ['red', 'purple for a party']),
    cross(['blood splatter', 'bruise', 'red'], ['pattern wanted', 'design chosen']),
    cross(['new strap', 'rivet fitted'], ['in place of the broken one', 'replacing the snapped one']),
    cross(
      ['checked', 'inspected all', 'looked at'],
      ['pressure areas, all clear', 'pressure points, nil of note'],
    ),
    cross(['old splint', 'previous AFO'], ['rubbed; new one does not', 'rubbed']),
    cross(['swelling', 'sore toe'], ['went down, fine now', 'and back to normal']),
    cross(['pink brace', 'red splints', 'straps please, in purple'], ['!', ', very pleased']),
    cross(['crying', 'rubbing', 'tingling'], ['stopped after a week', 'has stopped', 'stopped once relined']),
    cross(['fell off his scooter,', 'tripped over the dog,'], ['grazed the knee', 'bruised shin']),
    cross(['brother wore one too,', 'sister has had these,'], ['had sores', 'got blisters']),
    cross(['twin complains of', 'his cousin is complaining of'], ['blisters', 'sore heels']),
    cross(['cried when', 'cries when'], ['needles were mentioned', 'mum left the room']),
  ])('leaves it however it is put: %#', (...notes) => expect(seenIn(notes)).toEqual([]));

  it('takes a year before the one it was written in for the past', () => {
    const seen = (on: '2026-11-20' | '2023-11-20') => readNote('Botox 2023, good effect', null, on).findings;
    expect(seen('2026-11-20')).toEqual([]);
    expect(seen('2023-11-20')).toHaveLength(1);
  });

  it('names place, side and minutes', () => {
    expect(readNote('Red 40 min after removal R med mal').findings).toMatchObject([
      { where: 'med mal', side: 'right', minutes: 40 },
    ]);
  });
});

describe('what a note says does not hang on where in it the words stand', () => {
  const words = ['blister', 'open sore', 'wound', 'weepy patch', 'broken skin', 'pressure ulcer', 'raw area'];
  const places = ['heel', 'left malleolus', 'navicular', 'back of the calf'];
  const seen = (note: string) => readNote(note, 'ankle-foot').findings.some((f) => f.kind === 'skin-open');
  const each = (make: (word: string, place: string) => string) =>
    words.flatMap((w) => places.map((p) => make(w, p)));

  it.each([
    (w: string, p: string) => `${w} over ${p}`,
    (w: string, p: string) => `${p}: ${w}`,
    (w: string, p: string) => `Fits well, trims fine. Mum found a ${w} on the ${p} last night`,
    (w: string, p: string) => `No pain but ${w} at ${p}, under the strap`,
    (w: string, p: string) => `New straps, ${w} ${p} dressed by nurse, adjusted`,
    (w: string, p: string) => `brother has a cold. ${w} noted, ${p}`,
  ])('seen %#', (make) => expect(each(make).filter((note) => !seen(note))).toEqual([]));

  it.each([
    (w: string, p: string) => `no ${w} over ${p}`,
    (w: string, p: string) => `Watch for any ${w} on the ${p}`,
    (w: string, p: string) => `told to ring if ${w} at ${p}`,
    (w: string, p: string) => `previous ${w} ${p} fully healed`,
    (w: string, p: string) => `risk of ${w} at the ${p} explained`,
    (w: string, p: string) => `sister had a ${w} on her ${p}`,
    (w: string, p: string) => `h/o ${w} ${p} 2022, nil since`,
  ])('left %#', (make) => expect(each(make).filter(seen)).toEqual([]));
});
