/** The watch slip: pause, help, sound and light, and the two ways to end a drill before its time. */
import { cap, h, type Inside } from './dom.ts';
import type { Lent } from './host.ts';
import { lasting } from './hours.ts';
import { MANNER_SAYS } from './manner.ts';
import type { Session } from './session.ts';
import { settingsSlip } from './settings-slip.ts';
import { shortcutsSlip } from './shortcuts.ts';
import { ask, openSlip } from './slip.ts';
import type { Ways } from './ways.ts';

const HAND_OVER = {
  title: 'Hand the watch over?',
  text: 'The drill ends here and is marked as it stands. Check that the station is closed down and the log is signed.',
  yes: 'Hand over',
  no: 'Not yet',
};
const GIVE_UP = {
  title: 'Give the drill up?',
  text: 'The drill ends here and is marked as it stands; the record says that it was given up.',
  yes: 'Give up',
  no: 'Go on',
};

const LEAVING = 'Leaving keeps the drill exactly as it stands: the first page offers it again.';
const STAYING =
  'An assessed drill cannot be left: it ends when you hand over or give up. If this page is closed or hidden, the record says for how long.';

/** How far the drill is, whether its clock runs, and the step that is due where the manner may say it. */
function standing(session: Session): Inside {
  const step = session.guideStep();
  return [
    h('p', {}, h('b', {}, session.title), `, ${session.manner}. ${MANNER_SAYS[session.manner]}`),
    h(
      'p',
      {},
      // A length would stand still here while the clock runs on.
      session.manner === 'assessed'
        ? 'The clock runs on: an assessed drill has no pause.'
        : `${lasting(session.drill.now_us)} worked. The clock stands while this slip is open, and the record says so.`,
    ),
    step &&
      h(
        'div',
        { class: 'watch__now' },
        h('h3', {}, `Now, step ${step.index + 1} of ${step.of}: ${step.step.title}`),
        h('p', {}, step.tip),
        h('p', { class: 'aside' }, step.why),
      ),
  ];
}

/** Opens the slip. Outside *assessed* the clock stands while it is open, and the record says so; in it nothing here stops the clock. */
export function watchSlip(lent: Lent, ways: Ways, session: Session, sound: (on: boolean) => void): void {
  const isAssessed = session.manner === 'assessed';
  if (!isAssessed) session.stop('paused');
  let leaving = false;
  const goOn = () => {
    if (!leaving && !document.hidden) session.go();
    sound(lent.settings.read().sound);
  };
  const goOnAfter = () => {
    leaving = false;
    goOn();
  };
  const end = (question: typeof GIVE_UP, does: () => void) => {
    const yes = () => {
      session.go();
      does();
    };
    ask(question, yes, goOnAfter);
  };
  const others: readonly (readonly [says: string, does: () => void])[] = [
    ['Settings', () => settingsSlip(lent, goOnAfter)],
    ['Keys', () => shortcutsSlip(lent, goOnAfter)],
    ...(isAssessed ? [] : [['Leave it for now', () => ways.first()] as const]),
    ['Hand over', () => end(HAND_OVER, () => session.act('desk.handover', true))],
    ['Give up', () => end(GIVE_UP, () => session.end('given up'))],
  ];
  const button =
    (shut: () => void) =>
    ([says, does]: (typeof others)[number]) => {
      const onclick = () => {
        leaving = true;
        shut();
        does();
      };
      return h('button', { type: 'button', class: 'push', onclick }, says);
    };
  openSlip(
    'Watch',
    (shut) => [
      standing(session),
      h(
        'div',
        { class: 'slip__foot' },
        h('button', { type: 'button', class: 'push push--first', autofocus: true, onclick: shut }, 'Go on', cap('Esc')),
      ),
      h('div', { class: 'slip__foot' }, ...others.map(button(shut))),
      h('p', { class: 'aside' }, isAssessed ? STAYING : LEAVING),
    ],
    goOn,
  );
}
