/** reach and wav, as a user calls them: answers against the published check values, bad input calmly. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keydown, scratch } from './run.ts';

const dir = scratch();
const ask = (questions: readonly unknown[]) =>
  keydown(['reach', '--json'], questions.map((q) => (typeof q === 'string' ? q : JSON.stringify(q))).join('\n'))
    .out.trim()
    .split('\n')
    .map((l) => JSON.parse(l));

describe('keydown reach --json', () => {
  it('answers from the references', () => {
    const [ground, noise, whip, iono, sky] = ask([
      {
        kind: 'ground',
        f_MHz: 5,
        d_km: 40,
        ground: { eps_r: 15, sigma_S_per_m: 0.005 },
        h_tx_m: 2,
        h_rx_m: 2,
        power_W: 1000,
      },
      { kind: 'noise', f_MHz: 5, environment: 'rural', galactic: true },
      { kind: 'whip', f_MHz: 5, h_m: 4.57, a_m: 0.01 },
      { kind: 'iono', lat: 41.03, lng: 23.2, month: 2, hour_UT: 8, R12: 0 },
      {
        kind: 'sky',
        tx: [52, 10],
        rx: [52.442803, 11.277767],
        R12: 10,
        month: 1,
        hour_UT: 3,
        f_MHz: 2,
        reference: true,
      },
    ]);
    // ITU-R P.368-10 reference table, average ground, 5 MHz, 40 km.
    expect(ground.E_dBuV_per_m).toBeCloseTo(31.52, 1);
    // ITU-R P.372-16, rural and galactic at 5 MHz.
    expect(noise.Fa_dB).toBeCloseTo(48.109, 2);
    expect(noise.En_dBuV_per_m_1Hz).toBeCloseTo(-33.411, 2);
    // NEC2, 4.57 m whip of 10 mm radius at 5 MHz.
    expect(Math.abs(whip.X_ohm + 590.3)).toBeLessThan(5.9);
    expect(Math.abs(whip.R_ohm / 2.297 - 1)).toBeLessThan(0.04);
    // ITU-R P.1239 maps.
    expect(Math.abs(iono.foF2_MHz / 5.7979 - 1)).toBeLessThan(0.006);
    // ITU-R P.533-14 reference program, first row of test/vectors/skywave-check.csv.
    expect(Math.abs(sky.MUF_MHz / 3.12 - 1)).toBeLessThan(0.005);
    expect(sky.E_dBuV_per_m).toBeCloseTo(36.99, 1);
    expect(sky.mode).toBe('1F2');
  });

  it('says what is wrong with a question, and answers the next', () => {
    const answers = ask([
      'not json',
      '[]',
      'null',
      { kind: 'tea' },
      { kind: 'ground', f_MHz: 5 },
      { kind: 'ground', f_MHz: -5, d_km: 40, ground: { eps_r: 15, sigma_S_per_m: 0.005 } },
      { kind: 'ground', f_MHz: 5, d_km: '40', ground: { eps_r: 15, sigma_S_per_m: 0.005 } },
      { kind: 'noise', f_MHz: 5, environment: 'rural', colour: 'pink' },
      { kind: 'sky', tx: [91, 10], rx: [52, 11], R12: 10, month: 13, hour_UT: 3, f_MHz: 2 },
      '{"kind":"whip","f_MHz":1e999,"h_m":4.57,"a_m":0.01}',
      { kind: 'sky', tx: [52, 10], rx: [-33, 151], R12: 10, month: 1, hour_UT: 3, f_MHz: 5 },
    ]);
    expect(answers.slice(0, 10).every((a) => typeof a.error === 'string')).toBe(true);
    expect(answers[7].error).toContain('colour');
    expect(answers[10]).toMatchObject({ MUF_MHz: null, E_dBuV_per_m: null, reason: expect.any(String) });
  });
});

describe('keydown wav', () => {
  const path = (name: string) => join(dir, name);
  const TEXT = 'ROAD TO SAND QUAY OPEN UNTIL 1600';

  it('reads what it makes, print and Morse', () => {
    expect(keydown(['wav', 'make', '--text', TEXT, '--ebn0', '15', '--out', path('a.wav')]).code).toBe(0);
    expect(keydown(['wav', 'read', path('a.wav')]).out.trim()).toBe(TEXT);
    expect(keydown(['wav', 'make', '--morse', 'QV7K DE QV4M K', '--out', path('m.wav')]).code).toBe(0);
    expect(keydown(['wav', 'read', path('m.wav'), '--morse']).out.trim()).toBe('QV7K DE QV4M K');
    expect(keydown(['wav', 'read', path('m.wav')])).toEqual({
      code: 1,
      out: '',
      err: `keydown: ${path('m.wav')}: no print in it (Morse is read with --morse)\n`,
    });
  });

  it('with the wrong sense reads steady garble', () => {
    expect(keydown(['wav', 'read', path('a.wav'), '--mark', 'high']).out).not.toContain('SAND');
  });

  it('takes any common sample format to the same text', () => {
    const bytes = readFileSync(path('a.wav'));
    const mono = new Int16Array(bytes.buffer.slice(bytes.byteOffset + 44));
    for (const [bits, channels, isFloat] of [
      [8, 1, false],
      [24, 2, false],
      [32, 1, true],
      [32, 2, false],
    ] as const) {
      writeFileSync(path('f.wav'), wavOf(mono, bits, channels, isFloat));
      expect([bits, channels, keydown(['wav', 'read', path('f.wav')]).out.trim()]).toEqual([bits, channels, TEXT]);
    }
  });

  it('reads a truncated file as far as it goes, and says at which byte a broken one breaks', () => {
    const bytes = readFileSync(path('a.wav'));
    writeFileSync(path('cut.wav'), bytes.subarray(0, Math.floor(bytes.length / 2)));
    const cut = keydown(['wav', 'read', path('cut.wav')]);
    expect([cut.code, TEXT.startsWith(cut.out.trim().slice(0, 8))]).toEqual([0, true]);
    for (const broken of [Buffer.alloc(0), Buffer.from('hello'), bytes.subarray(0, 20), bytes.subarray(0, 44)]) {
      writeFileSync(path('broken.wav'), broken);
      const { code, err } = keydown(['wav', 'read', path('broken.wav')]);
      expect(code).toBe(1);
      expect(err).toMatch(/broken\.wav: byte \d+: /);
    }
  });

  it('takes any start-stop speed in the range that it tells, and reads it again', () => {
    const { out: help } = keydown(['wav', '--help']);
    expect(help).toContain('a number from 10 to 300');
    for (const [baud, rate] of [
      ['10', '8000'],
      ['51', '8000'],
      ['300', '9600'],
    ] as const) {
      const circuit = ['--baud', baud, '--centre', '1700'];
      const made = keydown(['wav', 'make', '--text', TEXT, ...circuit, '--rate', rate, '--out', path('b.wav')]);
      expect([baud, made.code, made.err]).toEqual([baud, 0, '']);
      expect(made.out).toMatch(/b\.wav: \d+\.\d s, 33 characters, print at \d+ Bd\n$/);
      expect(keydown(['wav', 'read', path('b.wav'), ...circuit]).out.trim()).toBe(TEXT);
    }
    for (const baud of ['9.9', '301', 'fast', '']) {
      for (const call of [
        ['make', '--text', TEXT, '--out', path('x.wav')],
        ['read', path('a.wav')],
      ]) {
        const { code, err } = keydown(['wav', ...call, '--baud', baud]);
        expect([baud, code]).toEqual([baud, 2]);
        expect(err).toContain(`--baud takes a number from 10 to 300, got "${baud}"`);
      }
    }
    const coarse = keydown(['wav', 'make', '--text', TEXT, '--baud', '300', '--out', path('x.wav')]);
    expect([coarse.code, coarse.err]).toEqual([2, expect.stringContaining('--rate 9600 at least')]);
  });

  it('reads Morse of any tone and speed once it is told them', () => {
    const how = ['--tone', '2500', '--wpm', '40'];
    keydown(['wav', 'make', '--morse', 'CQ DE QV4M', ...how, '--out', path('t.wav')]);
    expect(keydown(['wav', 'read', path('t.wav'), '--morse', ...how]).out.trim()).toBe('CQ DE QV4M');
  });

  it('says nothing beside a recording that goes to standard output', () => {
    const { out } = keydown(['wav', 'make', '--text', 'A', '--out', '/dev/stdout']);
    expect(out.slice(0, 4)).toBe('RIFF');
    expect(out).not.toContain('character');
  });

  it('refuses what it cannot make, and flags that would change nothing', () => {
    for (const args of [
      ['make', '--text', 'A€'],
      ['make', '--morse', 'A€'],
      ['make', '--text', ' '],
      ['make', '--text', 'A', '--shift', '9000'],
      ['make', '--text', 'A', '--wpm', '20'],
      ['make', '--text', 'A', '--seed', '2'],
      ['make', '--morse', 'A', '--baud', '75'],
      ['make'],
      ['make', 'here', '--text', 'A'],
    ]) {
      const { code, out, err } = keydown(['wav', ...args, '--out', path('x.wav')]);
      expect([args.join(' '), code, out, err]).toEqual([args.join(' '), 2, '', expect.stringMatching(/^keydown: \S/)]);
    }
    expect(keydown(['wav', 'read', path('a.wav'), '--wpm', '20']).code).toBe(2);
    expect(keydown(['wav', 'read', path('a.wav'), '--text', 'A']).code).toBe(2);
  });
});

/** The same sound in another sample format (RIFF/WAVE). */
function wavOf(mono: Int16Array, bits: 8 | 24 | 32, channels: number, isFloat: boolean): Buffer {
  const size = (mono.length * channels * bits) / 8;
  const out = Buffer.alloc(44 + size);
  out.write('RIFF', 0);
  out.writeUInt32LE(36 + size, 4);
  out.write('WAVEfmt ', 8);
  out.writeUInt32LE(16, 16);
  out.writeUInt16LE(isFloat ? 3 : 1, 20);
  out.writeUInt16LE(channels, 22);
  out.writeUInt32LE(8000, 24);
  out.writeUInt32LE((8000 * channels * bits) / 8, 28);
  out.writeUInt16LE((channels * bits) / 8, 32);
  out.writeUInt16LE(bits, 34);
  out.write('data', 36);
  out.writeUInt32LE(size, 40);
  let at = 44;
  for (const s of mono) {
    for (let c = 0; c < channels; c++) {
      if (isFloat) out.writeFloatLE(s / 32768, at);
      else if (bits === 8) out.writeUInt8(Math.round(s / 256) + 128, at);
      else out.writeIntLE(s * 2 ** (bits - 16), at, bits / 8);
      at += bits / 8;
    }
  }
  return out;
}
