/** Taking stock of a printed message as a copying operator does (common practice: ask for what is missing, by the words before it). */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { askFor, nothingCopied, shareOf, takeIn, wordsOf } from '../../../src/core/procedure/copying.ts';

const wanted = wordsOf('ROAD TO SAND QUAY OPEN UNTIL 1600.\nBRING 40 BLANKETS AND TEN LANTERNS');
const after = (...pieces: string[]) =>
  pieces.reduce((copied, piece) => takeIn(copied, wanted, wordsOf(piece)), nothingCopied(wanted.length));
const wish = (...pieces: string[]) => askFor(wanted, after(...pieces));
const WHOLE = wanted.join(' ');

describe('what is asked for', () => {
  it.each([
    ['nothing, when all is there', WHOLE, null],
    ['nothing, when there is more', `QQ ${WHOLE} NNNN`, null],
    ['all, when nothing came', 'XVZ QQT', 'ALL'],
    ['all, when the first word is lost', WHOLE.replace('ROAD', 'RQAD'), 'ALL'],
    ['all after the two words before', WHOLE.replace('OPEN', 'QPEN'), 'ALL AFTER SAND QUAY'],
    ['all after the one word before', WHOLE.replace('TO ', ''), 'ALL AFTER ROAD'],
    ['the end', 'ROAD TO SAND QUAY OPEN', 'ALL AFTER QUAY OPEN'],
  ])('%s', (_, piece, ask) => {
    expect(wish(piece)).toBe(ask);
  });
});

describe('pieces', () => {
  it('together make a whole', () => {
    expect(
      wish(
        'ROAD TO SAND QUAY XX',
        'I SAY AGAIN ALL AFTER SAND QUAY OPEN UNTIL 1600. BRING 40 BLANKETS AND TEN LANTERNS',
      ),
    ).toBeNull();
  });

  it('never lose what was there', () => {
    const piece = fc.array(fc.constantFrom(...wanted, 'XQ'), { maxLength: 20 });
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 4 }), (pieces) => {
        let copied = nothingCopied(wanted.length);
        for (const words of pieces) {
          const next = takeIn(copied, wanted, words);
          for (const [i, has] of copied.has.entries()) if (has) expect(next.has[i]).toBe(true);
          expect(shareOf(next)).toBeGreaterThanOrEqual(shareOf(copied));
          copied = next;
        }
      }),
      { seed: 31, numRuns: 200 },
    );
  });

  it('that are odd twice alike were sent so, if there is text on both sides', () => {
    const odd = WHOLE.replace('BLANKETS', 'BLANKTES');
    expect(wish(odd)).toBe('ALL AFTER BRING 40');
    expect(wish(odd, odd)).toBeNull();
    expect(wish(odd, WHOLE.replace('BLANKETS', 'BLRNKETS'))).toBe('ALL AFTER BRING 40');
    const broken = 'ROAD TO SAND QUAY OPEN';
    expect(wish(broken, broken)).toBe('ALL AFTER QUAY OPEN');
  });
});

describe('what nobody sees', () => {
  it('is a figure for another', () => {
    expect(wish(WHOLE.replace('1600', '1500'))).toBeNull();
    expect(wish(WHOLE.replace('1600', '160'))).not.toBeNull();
    expect(wish(WHOLE.replace('1600', 'I600'))).not.toBeNull();
  });
});
