/** The reach table, as a user calls it. */
import { describe, expect, it } from 'vitest';
import { keydown } from './run.ts';

describe('keydown reach', () => {
  it('prints 24 hours against frequencies, as physics has it: by ground near, by sky far', () => {
    const near = keydown(['reach', '--km', '30', '--ground', 'average', '--month', '10']);
    const far = keydown(['reach', '--from', '52,10', '--to', '52,23', '--month', '1']);
    for (const { code, out } of [near, far]) {
      expect(code).toBe(0);
      expect(out.split('\n').filter((l) => /^(0\d|1\d|2[0-3]) /.test(l))).toHaveLength(24);
      expect(out).not.toMatch(/NaN|undefined|Infinity/);
    }
    const row = (out: string, hour: string) => out.split('\n').find((l) => l.startsWith(`${hour} `)) ?? '';
    expect(row(near.out, '12')).toMatch(/^12 +(9\d|100) /);
    // Low frequencies carry 900 km by night and not at noon, high ones the other way round (D-layer absorption, MUF).
    expect(row(far.out, '00')).toMatch(/^00 +[3-9]\ds/);
    expect(row(far.out, '12')).toMatch(/^12 +\. /);
  }, 30_000);

  it('tells in its help every flag that it takes, and what each takes in the words of its errors', () => {
    const { out: help } = keydown(['reach', '--help']);
    for (const [flag, wrong] of [
      ['to', '95,10'],
      ['km', 'far'],
      ['from', 'home'],
      ['ground', 'swamp'],
      ['month', '13'],
      ['R12', '1.5'],
      ['noise', 'loud'],
      ['power', '0'],
    ] as const) {
      const end = flag === 'to' || flag === 'km' ? [] : ['--km', '10'];
      const { err } = keydown(['reach', ...end, `--${flag}`, wrong]);
      const takes = /--\w+ takes (.*), got /.exec(err)?.[1] ?? err;
      const line = help.split('\n').find((l) => l.startsWith(`  --${flag} `));
      expect([flag, line]).toEqual([flag, expect.stringContaining(takes)]);
    }
    expect(help).toContain('keydown reach --json');
  }, 60_000);

  it('says calmly what is wrong', () => {
    for (const [args, says] of [
      [['--km', 'far'], /--km takes a number from 0\.1 to 20000, got "far"/],
      [['--km', '10', '--to', '50,10'], /one of --to, --km and --json/],
      [['--json', '--km', '10'], /one of --to, --km and --json/],
      [['--json', '--month', '1'], /--month is of the table/],
      [['--km', '10', '40'], /one of --to, --km and --json/],
      [['--to', '95,10'], /--to takes latitude and longitude/],
      [['--km', '10', '--ground', 'swamp'], /--ground takes one of .*average/],
      [['--km', '10', '--noise', 'loud'], /--noise takes one of city/],
      [['--km', '10', '--month', '13'], /--month takes a whole number from 1 to 12/],
      [['--km', '10', '--power=-4'], /--power takes a number/],
      [['--month', '1'], /one of --to, --km and --json/],
      [[], /one of --to, --km and --json/],
    ] as const) {
      const { code, out, err } = keydown(['reach', ...args]);
      expect([code, out]).toEqual([2, '']);
      expect(err).toMatch(says);
      expect(err).not.toMatch(/ at .*\.ts:/);
    }
  }, 60_000);
});
