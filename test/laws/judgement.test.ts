/**
 * The trainer teaches judgement: is it the dial, the sense, the shift? Each fault, made on the whole station with a distant
 * beacon printing, must print as theory says.
 */
import { describe, expect, it } from 'vitest';
import { grounds } from '../../src/core/physics/ground-wave/ground.ts';
import { mixedGroundWave } from '../../src/core/physics/ground-wave/mixed-path.ts';
import { skyWave } from '../../src/core/physics/sky-wave/sky-wave.ts';
import { whipGain_dBi } from '../../src/core/physics/whip-pattern.ts';
import type { ControlValue } from '../../src/core/signals.ts';
import { alone, printed, printing, TEXT, whole } from './print-rig.ts';

/** What the own printer makes of a minute of a beacon on the channel, with these settings changed. */
function minute(
  { power_W = 100, error_kHz = 0 }: { power_W?: number; error_kHz?: number },
  ...changes: [string, ControlValue][]
) {
  const beacon = alone('beacon', { kHz: 4718, power_W, emission: 'F1B', text: TEXT });
  return printed(printing(beacon, changes, { error_kHz }));
}

describe('what prints tells what is wrong', () => {
  it('nothing is wrong: it prints clean', () => {
    expect(whole(minute({}))).toBeGreaterThanOrEqual(3);
  });

  it('the dial a quarter of the shift off: clean while the signal is strong', () => {
    // Mark and space still stand nearer to their own filter than to the other (theory of two tone filters).
    expect(whole(minute({ error_kHz: 0.1 }))).toBeGreaterThanOrEqual(3);
  });

  it('the dial half the shift off: mark stands between the filters, nothing reads', () => {
    expect(whole(minute({ error_kHz: 0.2 }))).toBe(0);
  });

  it('the sense reversed: steady garble, never a clean line', () => {
    const text = minute({}, ['keyer.sense', 'high']);
    expect(text.length).toBeGreaterThan(20);
    expect(whole(text)).toBe(0);
    expect(text).not.toMatch(/QUICK|BROWN|JUMPS|LAZY/);
  });

  it('the shift set to 850 for 400: the tones miss their filters', () => {
    expect(whole(minute({}, ['keyer.shift', '850'], ['receiver.bandwidth', '3']))).toBe(0);
  });

  it('the bandwidth too narrow for the shift: the 500 Hz filter still passes 400', () => {
    expect(whole(minute({}, ['receiver.bandwidth', '0.5']))).toBeGreaterThanOrEqual(3);
  });
});

describe('the hour tells on a low frequency', () => {
  /** Share of a minute's characters that are not the beacon's, at 2846 kHz over 90 km of average ground. */
  function wrongAt(utc: string): { wrong: number; sky_less_ground_dB: number } {
    const path = [{ ground: 'average', km: 90 }];
    const beacon = alone('beacon', { kHz: 2846, power_W: 60, emission: 'F1B', text: TEXT }, { utc, path });
    const tuned: [string, ControlValue][] = [
      ['receiver.band', '2'],
      ['receiver.dial', 846],
    ];
    const d = printing(beacon, tuned, { kHz: 2846 });
    const lines = printed(d, 240)
      .split('\n')
      .filter((l) => l.length > 20);
    const errors = lines.reduce(
      (sum, l) => sum + Array.from(TEXT).filter((c, i) => l[i] !== c).length / TEXT.length,
      0,
    );
    const ground = mixedGroundWave({
      f_MHz: 2.846,
      sections: [{ ground: grounds.average, d_km: 90 }],
      power_W: 1000,
    }).E_dBuV_per_m;
    const gainTx = (el: number) =>
      whipGain_dBi({ eps_r: 15, sigma_S_m: 0.005 }, 2.846, Math.min(89.9, Math.max(0.1, el)));
    const hour_UT = Number(utc.slice(0, 2));
    const sky =
      skyWave({ tx: [52, 10], rx: [52, 10 + 90 / 68.5], R12: 60, month: 10, hour_UT, f_MHz: 2.846, gainTx })
        .E_dBuV_per_m ?? -99;
    return { wrong: errors / Math.max(1, lines.length), sky_less_ground_dB: sky - ground };
  }

  it('by night the sky wave comes near the ground wave and the two fade against each other; by day the D layer takes it', () => {
    const day = wrongAt('12:00:00');
    const night = wrongAt('23:00:00');
    // ITU-R P.533-14 and P.368-10: the sky wave gains several decibels on the ground wave when the absorption goes.
    expect(night.sky_less_ground_dB - day.sky_less_ground_dB).toBeGreaterThan(4);
    expect(night.wrong).toBeGreaterThan(day.wrong);
  });
});
