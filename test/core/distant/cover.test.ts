/** Who is noted for talking over a station: one rule for posts and talkers. The second in which nobody could know: common practice. */
import { describe, expect, it } from 'vitest';
import type { Emission } from '../../../src/core/signals.ts';
import { CHANNEL_HZ, ISLE, OWN, POST, Rig, TO_POST } from './rig.ts';

const kHz = 4718;
const OTHER = 'QV2D';
const impolite = (call: string) => ({ call, kind: 'chatter', with: { kHz, polite: false } });

/** The own carrier stands from now on for so many seconds. */
const key = (rig: Rig, s: number, emission: Emission = 'A3E') => {
  const t_us = Math.round(rig.now_s * 1e6);
  rig.own.emission = emission;
  rig.own.steps.push({ t_us, f_Hz: CHANNEL_HZ, power_W: 8 }, { t_us: t_us + s * 1e6, f_Hz: CHANNEL_HZ, power_W: 0 });
};
/** Each a carrier and half a second of silence. */
const keyed = (rig: Rig, ...holds_s: number[]) => {
  for (const s of holds_s) {
    key(rig, s);
    rig.run(s + 0.5);
  }
  return rig.run(12);
};
const untilUp = (rig: Rig, at: number) => {
  while (!rig.distant.radiations()[at]?.steps.some((step) => step.power_W > 0)) rig.run(0.01);
  return rig;
};
/** Who was noted, in order. */
const by = (rig: Rig, station: string) =>
  rig.lines.flatMap((l) => (l.k === 'far' && l.station === station && l.what === 'covered' ? [l.detail['by']] : []));

/** Each begins to send at once, for 14 words of 0.4 s and twice 0.3 s; beside it stands an impolite talker. */
const KINDS = {
  post: {
    station: POST,
    begun: () =>
      untilUp(new Rig([{ call: POST, kind: 'post', with: { kHz } }, impolite(OTHER)]).say(`${TO_POST} OVER`), 0),
  },
  talker: {
    station: ISLE,
    begun: () => {
      const rig = new Rig([{ call: ISLE, kind: 'chatter', with: { kHz } }, impolite(OTHER)]);
      rig.distant.tell(ISLE, { say: [Array(14).fill('WIND').join(' ')] });
      return untilUp(rig, 0);
    },
  },
};

describe.each(Object.entries(KINDS))('over a %s', (_, { station, begun }) => {
  const later = (s: number) => begun().run(s);

  it('who begins in the midst is noted, once for what it sends in one go', () => {
    expect(by(keyed(later(2), 1), station)).toEqual([OWN]);
    expect(by(keyed(later(2), 1, 1), station)).toEqual([OWN]);
  });

  it.each([0.05, 0.3, 0.8, 0.95])('who begins %d s after it and goes on is not: he could not know', (s) => {
    expect(by(keyed(later(s), 4), station)).toEqual([]);
  });

  it('who began so, let go and begins again is', () => {
    expect(by(keyed(later(0.8), 0.4, 2.5), station)).toEqual([OWN]);
  });

  it('who falls in with its end, or comes after it, is not', () => {
    expect(by(keyed(later(5.9), 0.2), station)).toEqual([]);
    expect(by(keyed(later(7), 1), station)).toEqual([]);
  });

  it('another that began with it hides nobody', () => {
    const rig = begun();
    rig.distant.tell(OTHER, { say: [Array(12).fill('SAND').join(' ')] });
    expect(by(keyed(rig.run(2.5), 2), station)).toEqual([OWN]);
  });

  it('each who comes is noted', () => {
    const rig = later(1.5);
    rig.distant.tell(OTHER, { say: ['SAND SAND SAND SAND'] });
    expect(by(keyed(rig.run(1), 1), station)).toEqual([OTHER, OWN]);
  });
});

describe('begun over a carrier that stands', () => {
  const over = (emission: Emission, sends: (rig: Rig) => void) => {
    const rig = new Rig([impolite(ISLE)]);
    sends(rig);
    rig.distant.tell(ISLE, { say: [Array(14).fill('WIND').join(' ')] });
    if (emission === 'A1A') for (let n = 0; n < 12; n++) keyedGap(rig);
    return by(rig.run(20), ISLE);
  };
  /** A dash of Morse and seven units of silence (ITU-R M.1677-1) at 12 words a minute. */
  const keyedGap = (rig: Rig) => {
    key(rig, 0.3, 'A1A');
    rig.run(1);
  };

  it('a talker does not lay it at the door of whom it talks over', () => {
    expect(over('A3E', (rig) => key(rig.run(1), 20))).toEqual([]);
  });

  it('nor do the pauses of Morse make it another carrier', () => {
    expect(over('A1A', keyedGap)).toEqual([]);
  });
});
