/** Hand key, microphone and headset: they lie on the desk. */
import type { BoxLayout } from './layout.ts';

export const hand: BoxLayout = {
  controls: {
    key: { x: 1096, y: 142, s: 92, label: 'Hand key' },
    talk: { x: 1212, y: 140, s: 88, label: 'Press to talk', hit: { left: 1172, top: 134, right: 1252, bottom: 246 } },
    phones: { x: 1130, y: 310, s: 20, label: 'Headset', drop: 42, value: 17, more: { marks: 11 } },
    speaker: { x: 1214, y: 312, s: 26, label: 'Loudspeaker', drop: 40 },
  },
  indicators: {
    lampTalk: { x: 1177, y: 213, s: 6, label: 'open', drop: 22 },
    heard: { x: 0, y: 0, s: 0, as: 'none' },
    saying: { x: 0, y: 0, s: 0, as: 'none' },
  },
};
