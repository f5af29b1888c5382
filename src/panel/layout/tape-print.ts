/** Five-unit tape read by eye. */
import { printCode } from '../../core/telegraphy/ita2.ts';

/** What a tape says above its columns: letters in its own case, arrows for the shifts. */
export function printed(codes: readonly number[]): string[] {
  let state: Parameters<typeof printCode>[1] = { case: 'letters' };
  return codes.map((code) => {
    const one = printCode(code, state);
    state = one.state;
    if (code === 31) return '↓';
    if (code === 27) return '↑';
    if (one.char === '\r') return '<';
    if (one.char === '\n') return '≡';
    return one.char === ' ' ? '·' : (one.char ?? '').replace(/[^ -~]/g, '*');
  });
}
