import { describe, expect, it } from 'vitest';
import { type Reason, reasonCodes } from '../../src/recall/contract.js';
import { reasonSentence } from '../../src/words/reason-sentence.js';

const numbers = {
  measure: 'foot_length',
  side: 'left',
  flag: 'finding-skin-open',
  what: 'strap',
  part: 'foot-section',
  mm: 6,
  ...Object.fromEntries(
    ['on', 'by', 'date', 'from', 'end', 'next', 'since', 'castBy', 'expected'].map((k) => [k, '2026-12-01']),
  ),
};
const said = (code: Reason['code'], numb: boolean) =>
  reasonSentence(
    { action: 'check', reason: { code, numbers } },
    [{ family: 'solid-afo', side: 'left' }],
    numb,
  );

describe('the sentence to a parent', () => {
  it('never waits for pain where the skin cannot warn, and says to ring where it can', () => {
    for (const code of reasonCodes) {
      const asks = /\b(hurts?|pain)\b/;
      expect(said(code, true), code).not.toMatch(asks);
    }
    expect(said('red-flag', false)).toMatch(/pain/);
    expect(said('red-flag', true)).toMatch(/swelling, warmth/);
    expect(said('cast-due', false)).toMatch(/ring us sooner if anything rubs, marks or hurts/);
    expect(said('cast-due', true)).toMatch(/look at the skin/);
  });
});
