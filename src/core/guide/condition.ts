/** Whether something stands so now, as far as an operator can know. */
import { meets } from '../record/pattern.ts';
import type { Condition } from '../scenario/scenario.ts';
import { findWords, tokens } from './heard.ts';
import type { View } from './view.ts';

/** Words that the operator keeps in mind, by name. */
export type Memory = Record<string, string | boolean>;

// What is heard counts from its end; until then only the captions have it.
const someoneSpeaks = (view: View): boolean => {
  const captions = view.see('hand.heard');
  return (
    Array.isArray(captions) &&
    captions.some((c) => typeof c === 'object' && c !== null && !Array.isArray(c) && c['ended'] === false)
  );
};

function isQuiet(for_us: number, view: View, since_us: number): boolean {
  const long = view.now_us - since_us >= for_us;
  return long && !someoneSpeaks(view) && tokens(view.heard(Math.max(0, view.now_us - for_us))) === '';
}

/**
 * Does the condition hold? `since_us` bounds what was done, heard and printed, `began_us` the quiet; `memory` is what was
 * remembered so far.
 */
export function holds(c: Condition, view: View, since_us: number, memory: Memory = {}, began_us = since_us): boolean {
  const also = (x: Condition) => holds(x, view, since_us, memory, began_us);
  if ('see' in c) return meets(view.see(c.see), c);
  if ('standing' in c) return meets(view.standing(c.standing), c);
  if ('did' in c) return view.did(c.did, since_us).some((value) => meets(value, c));
  if ('heard' in c) return findWords(c.heard, view.heard(since_us)) !== undefined;
  if ('printed' in c) return view.printed(since_us).includes(c.printed);
  if ('quiet' in c) return isQuiet(c.quiet * 1e6, view, began_us);
  if ('remembered' in c) return memory[c.remembered] === c.is;
  if ('all' in c) return c.all.every(also);
  if ('any' in c) return c.any.some(also);
  return !also(c.not);
}
