/** A scenario that puts a WAV file on the air: found beside it, or a fault at the place that names it. */
import { readFileSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readRecordings } from '../../src/cli/recordings.ts';
import { KINDS } from '../../src/core/catalogue.ts';
import { parseScenario } from '../../src/core/scenario/scenario.ts';
import { keydown, scratch } from './run.ts';

const dir = scratch();
const path = join(dir, 'first-call.yaml');
const first = readFileSync('scenarios/first-call.yaml', 'utf8');

/** The first-call drill with one more station, which plays `wav`. */
function withStation(wav: string): string {
  const station = `  - call: QV3P
    kind: recording
    place: Plover Point
    path:
      - { ground: sea, km: 20 }
    with: { kHz: 4716, wav: "${wav}" }
`;
  return first.replace(/^stations:\n/m, `stations:\n${station}`);
}

function readWith(wav: string) {
  const text = withStation(wav);
  const read = parseScenario(text, KINDS, { file: path, seed: 1 });
  if (!read.ok) return { errors: read.errors, recordings: new Map() };
  return { ...readRecordings(read.scenario, text, path), text };
}

describe('a recording beside the scenario', () => {
  it('is read, and the scenario checks right', () => {
    expect(keydown(['wav', 'make', '--text', 'SAND QUAY', '--out', join(dir, 'a.wav')]).code).toBe(0);
    const { errors, recordings } = readWith('a.wav');
    expect(errors).toEqual([]);
    expect(recordings.get('a.wav')!.rate).toBe(8000);
    writeFileSync(path, withStation('a.wav'));
    expect(keydown(['check', path]).out).toContain('right');
  });

  it('when missing, no WAV, too large for the air or led out of the folder is a fault where it is named', () => {
    writeFileSync(join(dir, 'text.wav'), 'not a recording');
    symlinkSync('/etc/hostname', join(dir, 'link.wav'));
    writeFileSync(join(dir, 'large.wav'), '');
    truncateSync(join(dir, 'large.wav'), 33 * 1024 * 1024);
    for (const wav of ['none.wav', 'text.wav', 'link.wav', 'large.wav']) {
      const { errors } = readWith(wav);
      expect(errors.map((e) => [wav, e.code])).toEqual([[wav, 'bad-recording']]);
      expect(errors[0]!.source.slice(errors[0]!.col - 1)).toMatch(new RegExp(`^"?${wav}`));
    }
    writeFileSync(path, withStation('none.wav'));
    const { code, out } = keydown(['check', path]);
    expect([code, out]).toEqual([1, expect.stringContaining('bad-recording')]);
    const drill = keydown(['drill', path, '--hand', 'model', '--out', join(dir, 'r.jsonl')]);
    expect([drill.code, drill.err]).toEqual([1, expect.stringContaining('bad-recording')]);
  });

  it('has a plain name: no folder, no way up', () => {
    for (const wav of ['../a.wav', '/etc/a.wav', 'b/a.wav', 'a.mp3'])
      expect(readWith(wav).errors.map((e) => e.code)).toEqual(['bad-code']);
  });
});
