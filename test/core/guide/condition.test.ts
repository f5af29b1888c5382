import { describe, expect, it } from 'vitest';
import { holds } from '../../../src/core/guide/condition.ts';
import type { View } from '../../../src/core/guide/view.ts';
import type { Json } from '../../../src/core/signals.ts';

/** Thirty seconds in, with these captions and what was heard to its end, at so many seconds. */
function view(captions: Json, heard: [number, string][] = []): View {
  return {
    now_us: 30e6,
    see: (name) => (name === 'hand.heard' ? captions : undefined),
    standing: () => undefined,
    did: (control, since_us) => (control === 'desk.log' && since_us < 12e6 ? ['CALLED QV7K', 'RECEIPT'] : []),
    heard: (since_us) => heard.flatMap(([s, words]) => (s * 1e6 >= since_us ? [words] : [])).join(' | '),
    printed: () => '',
  };
}
const caption = (ended: boolean): Json => ({ n: 1, from_us: 0, to_us: 0, by: 'voice', words: 'QV7K THIS IS', ended });

describe('did', () => {
  it('when the operator did so since then', () => {
    expect(holds({ did: 'desk.log' }, view([]), 10e6)).toBe(true);
    expect(holds({ did: 'desk.log', like: '*receipt*' }, view([]), 10e6)).toBe(true);
    expect(holds({ did: 'desk.log', like: '*SENT*' }, view([]), 10e6)).toBe(false);
    expect(holds({ did: 'desk.log' }, view([]), 12e6)).toBe(false);
    expect(holds({ did: 'hand.say' }, view([]), 10e6)).toBe(false);
  });
});

describe('quiet', () => {
  it('when nothing was heard for so long', () => {
    expect(holds({ quiet: 20 }, view([]), 0)).toBe(true);
    expect(holds({ quiet: 20 }, view([caption(true)], [[9, 'OUT']]), 0)).toBe(true);
    expect(holds({ quiet: 20 }, view([caption(true)], [[11, 'OUT']]), 0)).toBe(false);
  });
  it('not while somebody still speaks, though no utterance has ended', () => {
    expect(holds({ quiet: 20 }, view([caption(false)]), 0)).toBe(false);
  });
  it('not before the step has lasted so long', () => {
    expect(holds({ quiet: 20 }, view([]), 11e6)).toBe(false);
  });
});
