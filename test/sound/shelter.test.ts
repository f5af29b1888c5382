import { readdirSync, readFileSync, statSync } from 'node:fs';
import { expect, test } from 'vitest';
import { Captions } from '../../src/sound/captions.ts';
import { LOOPS, recordingOf, STRIKES } from '../../src/sound/cues.ts';
import { Shelter } from '../../src/sound/shelter.ts';
import { begin, bringUp } from '../laws/first-call.ts';

const FOLDER = 'assets/sounds';

test('every sound has its recording, small and whole, and every recording its sound', () => {
  const wanted = new Set([...Object.keys(STRIKES), ...Object.keys(LOOPS)].map((c) => `${recordingOf(c as 'hum')}.wav`));
  expect(new Set(readdirSync(FOLDER))).toEqual(wanted);
  let bytes = 0;
  for (const file of wanted) {
    const wav = readFileSync(`${FOLDER}/${file}`);
    bytes += statSync(`${FOLDER}/${file}`).size;
    expect(wav.toString('latin1', 0, 4)).toBe('RIFF');
    expect(wav.readUInt32LE(40)).toBe(wav.length - 44);
  }
  expect(bytes).toBeLessThan(200_000);
});

test('loops close without a seam: the step over the end is no larger than those within', () => {
  for (const name of Object.keys(LOOPS)) {
    const wav = readFileSync(`${FOLDER}/${recordingOf(name as 'hum')}.wav`);
    const x = Array.from({ length: (wav.length - 44) / 2 }, (_, i) => wav.readInt16LE(44 + 2 * i));
    const steps = x.slice(1).map((v, i) => Math.abs(v - x[i]!));
    expect(Math.abs(x[0]! - x.at(-1)!)).toBeLessThanOrEqual(Math.max(...steps));
  }
});

test('the inverter runs up, hums at its frequency and stops; hands and printer are heard', () => {
  const d = begin(11);
  const shelter = new Shelter(d);
  const heard: string[] = [];
  const paces: number[] = [];
  const step = () => {
    const { strikes, loops } = shelter.hear();
    heard.push(...strikes);
    const hum = loops.get('hum');
    if (hum) paces.push(hum.pace);
    return [...loops.values()].map((l) => l.words);
  };
  for (const [control, value] of [
    ['feed.isolator', true],
    ['feed.master', true],
    ['feed.inverter', true],
    ['inverter.lever', 'A'],
    ['inverter.start', true],
  ] as const) {
    d.act(control, value);
    step();
  }
  expect(heard).toEqual(['lever', 'lever', 'button', 'lever', 'button']);
  for (let i = 0; i < 20; i++) {
    d.advance(d.now_us + 250_000);
    step();
  }
  expect(step()).toContain('Inverter runs up');
  d.advance(d.now_us + 3_000_000);
  expect(step()).toContain('Inverter hums');
  expect([...paces].sort((a, b) => a - b)).toEqual(paces);
  expect(paces.at(-1)).toBeCloseTo(1, 1);
  d.act('printer.motor', true);
  d.advance(d.now_us + 4_000_000);
  expect(step()).toContain('Printer motor turns');
  heard.length = 0;
  for (const key of ['R', 'Y', 'FIGS', 'J', 'CR', 'LF']) {
    d.act('printer.key', key);
    d.advance(d.now_us + 400_000);
    step();
  }
  expect(heard.filter((h) => h !== 'keytop')).toEqual(['hammer', 'hammer', 'function', 'bell', 'carriage', 'function']);
  heard.length = 0;
  d.act('printer.key', 'A');
  d.act('printer.key', 'B');
  step();
  expect(heard).toEqual(['keytop', 'locked']);
  d.act('inverter.lever', 'off');
  expect(step().join()).not.toContain('Inverter');
});

test('what happened before the sound began is not heard, nor a leap of the clock struck by struck', () => {
  const d = begin(11);
  bringUp(d);
  const shelter = new Shelter(d);
  expect(shelter.hear().strikes).toEqual([]);
  for (let i = 0; i < 30; i++) {
    d.advance(d.now_us + 10_000);
    d.act('receiver.dial', i);
  }
  expect(shelter.hear().strikes.length).toBeLessThanOrEqual(6);
});

test('words follow what sounds; a strike is told for a moment', () => {
  const captions = new Captions();
  const told: string[] = [];
  captions.onChange((words) => told.push(words.join(', ')));
  const hum = [{ pace: 1, words: 'Inverter hums' }];
  captions.tell(0, hum, null, []);
  captions.tell(40, hum, null, []);
  captions.tell(80, hum, 'Receiver: hiss', ['bell']);
  captions.tell(2000, [], null, []);
  expect(told).toEqual(['Inverter hums', 'Inverter hums, Receiver: hiss, The page bell rings', '']);
  expect(captions.words).toEqual([]);
});
