/** What a schema cannot see: names that must exist, values that must fit, characters a printer lacks. */
import type { Json } from '../signals.ts';
import { checkNames } from './check-patterns.ts';
import { checkSteps } from './check-steps.ts';
import { drawsIn } from './draws.ts';
import { type Finding, Findings, type Path } from './findings.ts';
import type { Draw, Kinds, Scenario } from './scenario.ts';
import { LINE_CHARS } from './schema.ts';

export type { Finding };

function inner(found: Findings, path: Path, things: Record<string, Json>, isRunning: boolean): void {
  const all = found.kinds.inner;
  for (const [full, value] of Object.entries(things)) {
    const at = [...path, full];
    if (!found.known('unknown-inner', at, full, all.keys(), 'an inner thing of a box', true)) continue;
    const thing = all.get(full);
    if (isRunning && thing?.fixed)
      found.say('cannot-change', at, 'an inner thing that can change while the drill runs', { key: true });
    else if (thing) found.shape(at, thing.schema, value);
  }
}

function papers(found: Findings): void {
  const { papers, stations } = found.scenario;
  found.once(['papers', 'frequencies'], 'name', papers.frequencies);
  found.once(['papers', 'messages'], 'id', papers.messages);
  const known = [...stations.map((x) => x.call), ...papers.calls.map((c) => c.call)];
  for (const [i, message] of papers.messages.entries()) {
    const path = ['papers', 'messages', i] as const;
    found.known(
      'unknown-station',
      [...path, 'to'],
      message.to,
      known,
      'a station of this scenario or its call-sign card',
    );
    for (const [j, line] of message.lines.entries()) {
      const at = [...path, 'lines', j];
      if (line.length > LINE_CHARS)
        found.say('line-too-long', at, `at most ${LINE_CHARS} characters, got ${line.length}`, { index: LINE_CHARS });
      found.letters(at, line);
    }
  }
}

function happenings(found: Findings): void {
  found.once(['happenings'], 'id', found.scenario.happenings);
  const far = found.scenario.stations.map((x) => x.call);
  for (const [i, h] of found.scenario.happenings.entries()) {
    const path = ['happenings', i];
    if (!('station' in h.do)) inner(found, [...path, 'do', 'inner'], h.do.inner, true);
    else if (
      found.known('unknown-station', [...path, 'do', 'station'], h.do.station, far, 'a station of this scenario')
    )
      tell(found, [...path, 'do', 'tell'], h.do.station, h.do.tell);
    if ('at_s' in h && h.at_s > found.scenario.time_limit_min * 60)
      found.say('too-late', [...path, 'at_s'], 'a time before the time limit');
    if ('when' in h) checkNames(found, [...path, 'when'], h.when as Json);
  }
}

function tell(found: Findings, path: Path, call: string, what: Json): void {
  const kind = found.scenario.stations.find((x) => x.call === call)?.kind ?? '';
  const told = found.kinds.correspondents.get(kind)?.told;
  if (told) found.shape(path, told, what);
}

function own(found: Findings): void {
  const { own, stations } = found.scenario;
  for (const [full, value] of Object.entries(own.controls)) found.setting(['own', 'controls', full], full, value);
  inner(found, ['own', 'inner'], own.inner, false);
  found.once(['stations'], 'call', stations);
  for (const [i, far] of stations.entries()) {
    if (far.call === own.call) found.say('duplicate-id', ['stations', i, 'call'], 'another call sign than the own one');
    if (found.scenario.papers.card === null && found.kinds.correspondents.get(far.kind)?.needsCard?.(far.with))
      found.say('no-card', ['stations', i, 'with'], 'papers.card, or a station that does not challenge', {
        key: true,
      });
  }
}

function measures(found: Findings): void {
  const { measures } = found.scenario;
  found.once(['measures'], 'id', measures);
  for (const [i, measure] of measures.entries()) checkNames(found, ['measures', i], measure as Json);
  if (!measures.some((m) => m.weight > 0))
    found.say('no-weight', ['measures'], 'a weight above 0 for at least one measure');
}

/** Draws that nothing in the scenario's body (draws still open) and no other draw refers to: a slip of the pen, or forgotten. */
export function unusedDraws(draws: Record<string, Draw>, body: Json): Finding[] {
  const used = new Set(drawsIn(JSON.stringify(body)));
  for (const draw of Object.values(draws)) if ('with' in draw) used.add(draw.with);
  return Object.keys(draws)
    .filter((name) => !used.has(name))
    .map((name) => ({ path: ['draws', name], code: 'unused-draw', expected: 'a draw that something uses', key: true }));
}

/** Everything in a scenario that names what does not exist or does not fit. */
export function checkScenario(scenario: Scenario, kinds: Kinds): Finding[] {
  const found = new Findings(scenario, kinds);
  for (const check of [own, papers, happenings, measures, checkSteps]) check(found);
  return found.list;
}
