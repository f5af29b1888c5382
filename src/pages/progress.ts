/** Long work shows how far it is. */
import { h } from './dom.ts';

/** A bar with a text; without a share it only says that work goes on. */
export function progressBar(text: string): { el: HTMLElement; set(done: number): void; say(text: string): void } {
  const label = h('p', { id: 'progress-says' }, text);
  const bar = h('progress', { max: 1, 'aria-labelledby': 'progress-says' });
  const el = h('div', { class: 'work__wait' }, label, bar);
  return {
    el,
    set: (done) => {
      bar.value = done;
    },
    say: (now) => {
      label.textContent = now;
      bar.removeAttribute('value');
    },
  };
}
