/** check, drill, mark and explain, as a user calls them. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { KINDS } from '../../src/core/catalogue.ts';
import { ENGINE } from '../../src/core/record/record.ts';
import { OLD, oldRecord } from '../old/old.ts';
import { keydown, type Ran, scratch } from './run.ts';

const FIRST = 'scenarios/first-call.yaml';
const dir = scratch();
const file = (name: string, text = '') => {
  const path = join(dir, name);
  writeFileSync(path, text);
  return path;
};

describe('keydown', () => {
  it('tells its verbs, and each verb tells itself', () => {
    const all = keydown(['--help']);
    expect(all.code).toBe(0);
    for (const verb of ['check', 'drill', 'station', 'mark', 'explain', 'reach', 'wav']) {
      expect(all.out).toContain(verb);
      const one = keydown([verb, '--help']);
      expect([verb, one.code]).toEqual([verb, 0]);
      expect(one.out).toContain(`keydown ${verb}`);
    }
  });

  it('gives help wherever it is asked for, and its version', () => {
    const { out } = keydown(['drill', '--help']);
    for (const args of [
      ['drill', '-h'],
      ['help', 'drill'],
      ['--help', 'drill'],
      ['drill', FIRST, '--help'],
    ])
      expect([args.join(' '), keydown(args)]).toEqual([args.join(' '), { code: 0, out, err: '' }]);
    expect(keydown(['-h']).out).toBe(keydown(['--help']).out);
    expect(keydown(['--version'])).toEqual({ code: 0, out: `${ENGINE}\n`, err: '' });
    expect(keydown(['dril']).err).toContain('did you mean "drill"?');
  });

  it('answers a wrong call with exit 2 and a plain sentence', () => {
    for (const args of [
      ['sing'],
      ['check'],
      ['drill', FIRST],
      ['mark'],
      ['drill', FIRST, '--hand', 'model', '--out', 'x', '--seed', '-1'],
      ['check', '--frob'],
    ]) {
      const { code, err } = keydown(args);
      expect([args.join(' '), code]).toEqual([args.join(' '), 2]);
      expect(err).not.toMatch(/\n\s+at /);
    }
  });
});

it('says what is wrong with flags in plain words, and takes negative numbers as people write them', () => {
  for (const [args, says] of [
    [['drill', FIRST, '--hnad', 'model'], /no option --hnad here; did you mean "hand"\?/],
    [['mark', 'x', '--json=1'], /--json takes no value/],
    [['reach', '--km'], /--km wants a value/],
    [['reach', '--km', '--month', '3'], /--km wants a value/],
    [['reach', '--km', '-5'], /--km takes a number from 0\.1 to 20000, got "-5"/],
  ] as const) {
    const { code, err } = keydown(args);
    expect([args.join(' '), code, err]).toEqual([args.join(' '), 2, expect.stringMatching(says)]);
  }
});

it('lists what a hand script may name: controls and what they take, indicators and what they show', () => {
  const { code, out } = keydown(['station']);
  expect(code).toBe(0);
  for (const name of [...KINDS.controls.keys(), ...KINDS.indicators.keys()]) expect(out).toContain(`  ${name} `);
  const sender = keydown(['station', 'sender']).out;
  expect(sender).toMatch(/^ {2}sender\.power +.*: takes one of low, full$/m);
  expect(sender).toMatch(/^ {2}sender\.filterState +.*: shows one of "clean", /m);
  expect(sender).not.toContain('feed.');
  const wrong = keydown(['station', 'sendre']);
  expect([wrong.code, wrong.err]).toEqual([2, expect.stringContaining('did you mean "sender"?')]);
});

describe('keydown check', () => {
  it('passes the drills of the house', () => {
    expect(keydown(['check', FIRST])).toMatchObject({ code: 0, err: '' });
  });

  it('says path:line:col: CODE and what was expected', () => {
    const bad = file(
      'first-call.yaml',
      readFileSync(FIRST, 'utf8').replace('sender.filter: true', 'sender.filtre: true'),
    );
    const { code, out } = keydown(['check', bad]);
    expect(code).toBe(1);
    expect(out).toMatch(/first-call\.yaml:\d+:\d+: \S+ .*sender\.filter/);
  });

  it('takes malformed, truncated, enormous, cyclic and hostile files calmly', () => {
    const whole = readFileSync(FIRST, 'utf8');
    const files = [
      file('empty.yaml'),
      file('cut.yaml', whole.slice(0, whole.length / 2)),
      file('tabs.yaml', 'id: a\n\ttitle: b\n'),
      file('big.yaml', `id: a\nabout: "${'x'.repeat(10 * 1024 * 1024)}"\n`),
      file('cycle.yaml', 'id: &a\n  b: *a\n'),
      file(
        'bomb.yaml',
        'a: &a [x, x, x, x, x, x, x, x, x]\nb: &b [*a, *a, *a, *a, *a, *a, *a, *a]\nc: &c [*b, *b, *b, *b, *b, *b, *b]\nd: [*c, *c, *c, *c, *c, *c, *c]\n',
      ),
      file('deep.yaml', `${'['.repeat(5000)}${']'.repeat(5000)}`),
      file('tag.yaml', 'id: !!js/function "function () { return 1 }"\n'),
      file('proto.yaml', '__proto__: { polluted: true }\nconstructor: 1\n'),
    ];
    const { code, out, err } = keydown(['check', ...files]);
    expect(code).toBe(1);
    expect(err).toBe('');
    for (const path of files) expect(out).toMatch(new RegExp(`${path.replace(/[.\\/]/g, '.')}:\\d+:\\d+: `));
    expect(out).not.toMatch(/\n\s+at /);
  });

  it('a file that cannot be read hides none of the others', () => {
    const bin = file('bin.yaml', '');
    writeFileSync(bin, Buffer.from([0x69, 0x64, 0x3a, 0x0a, 0x1b, 0x5b, 0xff, 0x00]));
    const list = file('list.yaml', '- a\n');
    const { code, out, err } = keydown(['check', dir, bin, list, FIRST, join(dir, 'absent.yaml')]);
    expect([code, err]).toEqual([1, '']);
    expect(out).toContain(`${dir}: cannot be read: it is a folder\n`);
    expect(out).toContain(`${bin}:2:3: not-text `);
    expect(out).toContain(`${list}:1:1: wrong-type a scenario`);
    expect(out).toContain(`${FIRST}: right\n`);
    expect(out).toContain('absent.yaml: cannot be read: there is no such file');
    // Nothing in a file may steer the terminal.
    expect(out).not.toContain('\u001b');
  });

  it('wants call signs in quotes', () => {
    const bad = file('first-call.yaml', readFileSync(FIRST, 'utf8').replace('call: "QV4M"', 'call: 1E5'));
    expect(keydown(['check', bad]).out).toMatch(/:\d+:\d+: unquoted\S* /);
  });
});

describe('keydown drill, mark, explain', () => {
  const record = join(dir, 'model.jsonl');
  let whole: Ran;
  beforeAll(() => {
    whole = keydown(['drill', FIRST, '--seed', '3', '--hand', 'model', '--out', record]);
    expect(whole).toMatchObject({ code: 0, err: '' });
  });

  it('tells in one line what was written, unless that went to standard output', () => {
    const hand = file('short.hand', '1.5 feed.isolator = on\n');
    const out = join(dir, 'short.jsonl');
    const told = keydown(['drill', FIRST, '--hand', hand, '--out', out]);
    const count = readFileSync(out, 'utf8').trim().split('\n').length - 1;
    expect(told).toEqual({ code: 0, out: `${out}: ${count} lines, 1.5 s of drill, not ended\n`, err: '' });
    expect(whole.out).toMatch(/model\.jsonl: \d+ lines, \d+ min \d\d s of drill, ended, handed over\n$/);
    expect(keydown(['drill', FIRST, '--hand', hand, '--out', '/dev/stdout']).out).toBe(readFileSync(out, 'utf8'));
    const over = keydown(['drill', FIRST, '--hand', hand, '--out', hand]);
    expect([over.code, over.err]).toEqual([2, expect.stringContaining('would be written over')]);
    expect(readFileSync(hand, 'utf8')).toContain('isolator');
    const early = keydown(['mark', out]).out;
    expect(early).toContain('The record has no end: the drill was not over.');
    expect(early).not.toContain('Recorded by');
    expect(keydown(['explain', out]).out).toMatch(/1\.5 s, not ended\.$/m);
    const old = file('old.jsonl', readFileSync(out, 'utf8').replace(`"${ENGINE}"`, '"keydown 0.0.9"'));
    expect(keydown(['mark', old]).out).toContain(`Recorded by keydown 0.0.9, marked by ${ENGINE}.`);
    const nowhere = keydown(['drill', FIRST, '--hand', hand, '--out', join(dir, 'no', 'such.jsonl')]);
    expect(nowhere).toMatchObject({
      code: 1,
      out: '',
      err: expect.stringContaining('such.jsonl: cannot be written: '),
    });
  });

  it.each(['mark', 'explain'])(
    '%s refuses a true record whose drill this engine does not take, in one sentence',
    (verb) => {
      const old = file('first-engine.jsonl', oldRecord);
      expect(keydown([verb, old])).toEqual({
        code: 1,
        out: '',
        err: `keydown: ${old}: ${OLD} wrote this record, and ${ENGINE} does not take the drill in it (first at 789:11 of its scenario): mark it with ${OLD}.\n`,
      });
      expect(readFileSync(old, 'utf8')).toBe(oldRecord);
      const own = keydown([verb, file('own.jsonl', oldRecord.replace(OLD, ENGINE))]);
      expect([own.code, own.err]).toEqual([1, expect.stringContaining('789:11: unknown-kind')]);
    },
  );

  it('the model operator passes', () => {
    const { code, out } = keydown(['mark', record, '--json']);
    expect(code).toBe(0);
    const marked = JSON.parse(out);
    expect(Object.keys(marked)[0]).toBe('verdict');
    expect(marked).toMatchObject({ verdict: 'GO' });
    for (const m of marked.measures) expect([m.id, m.go, m.because.length > 0]).toEqual([m.id, true, true]);
  });

  it('explain tells it in words', () => {
    const { code, out } = keydown(['explain', record]);
    expect(code).toBe(0);
    expect(out).toContain('GO');
  });

  it('the same seed gives the same record to the byte', () => {
    const again = join(dir, 'again.jsonl');
    keydown(['drill', FIRST, '--seed', '3', '--hand', 'model', '--out', again]);
    expect(readFileSync(again, 'utf8')).toBe(readFileSync(record, 'utf8'));
  });

  it('a script of the record’s own acts gives the same record', () => {
    const lines = readFileSync(record, 'utf8')
      .trim()
      .split('\n')
      .slice(1)
      .map((l) => JSON.parse(l));
    const acts = lines
      .filter((l) => l.k === 'do')
      .map((l) => `${(l.t / 1e6).toFixed(3)} ${l.control} = ${JSON.stringify(l.value)}`);
    const script = file('replay.hand', `${acts.map((a) => a.replace(/ = (true|false)$/, ' = $1')).join('\n')}\n`);
    const replayed = join(dir, 'replayed.jsonl');
    expect(keydown(['drill', FIRST, '--seed', '3', '--hand', script, '--out', replayed])).toMatchObject({ code: 0 });
    expect(readFileSync(replayed, 'utf8')).toBe(readFileSync(record, 'utf8'));
  });

  it('a hand that skips the guard is NO-GO for that reason, at that moment', () => {
    const lines = readFileSync(record, 'utf8')
      .trim()
      .split('\n')
      .slice(1)
      .map((l) => JSON.parse(l));
    const acts = lines.filter((l) => l.k === 'do' && l.control !== 'aerial.guard');
    const found = lines.find((l) => l.k === 'value' && l.q === 'aerial.guard');
    const off = found.v === true ? ['0.5 aerial.guard = false'] : [];
    const script = file(
      'no-guard.hand',
      `${[...off, ...acts.map((l) => `${(l.t / 1e6).toFixed(3)} ${l.control} = ${JSON.stringify(l.value)}`)].join('\n')}\n`,
    );
    const unsafe = join(dir, 'unsafe.jsonl');
    keydown(['drill', FIRST, '--seed', '3', '--hand', script, '--out', unsafe]);
    const marked = JSON.parse(keydown(['mark', unsafe, '--json']).out);
    expect(marked.verdict).toBe('NO-GO');
    const failed = marked.measures.filter((m: { go: boolean }) => !m.go);
    expect(failed.map((m: { id: string }) => m.id)).toEqual(['guard-and-earth', 'nothing-unsafe']);
    const at = lines.find((l) => l.k === 'do' && l.control === 'sender.readiness' && l.value === 'heat');
    const because = readFileSync(unsafe, 'utf8')
      .trim()
      .split('\n')
      .slice(1)
      .map((l) => JSON.parse(l))[failed[0].because[0] - 1];
    expect(because).toMatchObject({ k: 'mode', box: 'sender', mode: 'heating', t: at.t });
  });

  it('faulty scripts and records get a place, not a trace', () => {
    const script = file('bad.hand', '1 feed.isolator = on\n2 sender.warp = 9\n');
    const bad = keydown(['drill', FIRST, '--hand', script, '--out', join(dir, 'x.jsonl')]);
    expect([bad.code, bad.err]).toEqual([1, expect.stringMatching(/bad\.hand:2:3: unknown-control /)]);
    const newer = file(
      'newer.jsonl',
      readFileSync(record, 'utf8').replace('"keydown-record":1', '"keydown-record":99'),
    );
    const cut = file('cut.jsonl', readFileSync(record, 'utf8').slice(0, -40));
    const none = file('none.jsonl', 'hello\n');
    for (const path of [newer, cut, none, join(dir, 'absent.jsonl')]) {
      const { code, err } = keydown(['mark', path]);
      expect([path, code]).toEqual([path, 1]);
      expect(err).toContain(path);
      expect(err).not.toMatch(/\n\s+at /);
    }
  });

  it('nothing in a file reaches the terminal as a command to it', () => {
    const file = join(dir, 'escape.jsonl');
    const header = {
      'keydown-record': 1,
      engine: 'old\u001b[31m',
      name: 'x',
      scenario: 'id: \u001b]0;',
      seed: 1,
      manner: 'shown',
      stretch: 1,
    };
    writeFileSync(file, `${JSON.stringify(header)}\n`);
    const { code, out, err } = keydown(['mark', file]);
    expect([code, out]).toEqual([1, '']);
    expect(err).toContain('old\ufffd[31m wrote this record');
    expect(err).not.toMatch(/[^\P{Cc}\t\n]/u);
  });

  it('what is no record at all is told apart from a record that is broken', () => {
    const binary = file('binary.jsonl');
    writeFileSync(binary, Buffer.from([0x00, 0xff, 0xfe, 0x0a]));
    const others = [
      FIRST,
      file('object.json', '{"a": 1}\n'),
      file('pretty.json', '{\n  "a": 1\n}\n'),
      file('list.json', '[1, 2]\n'),
      file('empty.jsonl'),
      'public/keydown.svg',
    ];
    for (const verb of ['mark', 'explain']) {
      for (const path of others) {
        const { code, out, err } = keydown([verb, path]);
        expect([code, out, err.split('\n')[0]]).toEqual([
          1,
          '',
          `keydown: ${path}:1:1: not-a-record a record of a drill: lines of JSON, the first with the key "keydown-record"`,
        ]);
        expect(err).not.toMatch(/\n\s+at /);
      }
      expect(keydown([verb, binary]).err).toMatch(/^keydown: .*binary\.jsonl:1:2: not-text /);
    }
    const marked = file('marked.jsonl', `\ufeff${readFileSync(record, 'utf8')}`);
    expect(keydown(['mark', marked]).code).toBe(0);
    const half = file('half.jsonl', readFileSync(record, 'utf8').slice(0, 500));
    expect(keydown(['mark', half]).err).toMatch(/half\.jsonl:1:501: truncated /);
  });
});
