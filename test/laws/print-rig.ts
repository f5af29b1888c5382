/** The station brought up and printing what one distant station sends on the channel, alone on the air. */
import { expect } from 'vitest';
import { Drill } from '../../src/core/drill.ts';
import type { Recordings } from '../../src/core/samples/recording.ts';
import type { Scenario } from '../../src/core/scenario/scenario.ts';
import type { ControlValue } from '../../src/core/signals.ts';
import { bringUp, scenarioOf, settingOf } from './first-call.ts';

export const TEXT = 'THE QUICK BROWN FOX JUMPS OVER THE LAZY DOG';
export const SEED = 9;

type Station = Scenario['stations'][number];

/** The first-call world, at noon unless told, with no dial error, and one station at Kelp Isle instead of everybody else. */
export function alone(
  kind: string,
  how: Station['with'],
  { utc = '12:00:00', path = [{ ground: 'sea', km: 40 }] }: { utc?: string; path?: Station['path'] } = {},
): Scenario {
  const s = scenarioOf(SEED);
  const station = { call: 'QV9B', kind, place: 'Kelp Isle', path, with: how };
  const inner = { ...s.own.inner, 'receiver.dialError_kHz': 0 };
  return { ...s, world: { ...s.world, utc }, own: { ...s.own, inner }, stations: [station], happenings: [] };
}

/** A drill of it, brought up to print, with these settings changed, and the dial on `kHz` but for `error_kHz`. */
export function printing(
  scenario: Scenario,
  changes: readonly [string, ControlValue][],
  { kHz = 4718, error_kHz = 0, recordings }: { kHz?: number; error_kHz?: number; recordings?: Recordings } = {},
): Drill {
  const d = new Drill(scenario, settingOf(SEED), undefined, recordings);
  bringUp(d);
  const set: [string, ControlValue][] = [
    ['printer.source', 'line'],
    ['keyer.hold', true],
    ['receiver.bandwidth', '1.2'],
    ['line.lever', 'IN'],
    ...changes,
  ];
  for (const [control, value] of set) expect(d.act(control, value)).toBeUndefined();
  // The receiver has crept up to 40 Hz as it warmed: the operator takes that out, but for the error under test.
  d.act('receiver.fine', error_kHz - (d.station.state.wires.rx.tuned_Hz - 1000 * kHz) / 1000);
  return d;
}

/** What the own printer makes of the next minute, or of so many seconds. */
export function printed(d: Drill, for_s = 60): string {
  const since = d.now_us;
  d.advance(since + 1e6 * for_s);
  return d.printed(since);
}

/** How many lines of the text came whole, of the four or so that a minute holds. */
export const whole = (text: string): number => text.split('\n').filter((line) => line.includes(TEXT)).length;
