/** `station`: what the station has, by the names that hand scripts and scenarios use. */
import { BOXES, KINDS } from '../core/catalogue.ts';
import { meant } from '../core/record/places.ts';
import { misfit, type Range } from '../core/record/range.ts';
import { showsText } from '../core/record/shows.ts';
import type { Box } from '../core/station/box.ts';
import { OK, Plain, readArgs, USAGE, type Verb } from './verb.ts';

/** What a control can be set to. Nothing can be set to null, so what is wrong with that is what would be right. */
const takesText = (range: Range): string =>
  range.kind === 'switch' ? `${range.words[0]} (false) or ${range.words[1]} (true)` : (misfit(range, null) ?? '');

function rowsOf({ id, name, controls, indicators }: Pick<Box, 'id' | 'name' | 'controls' | 'indicators'>): string[] {
  const row = (own: string, called: string, does: string) => `  ${`${id}.${own}`.padEnd(20)} ${called}: ${does}`;
  return [
    `${id}: ${name}`,
    ...controls.map((c) => row(c.id, c.name, `takes ${takesText(c.range)}`)),
    ...indicators.map((i) => row(i.id, i.name, `shows ${showsText(KINDS.indicators.get(`${id}.${i.id}`) ?? 'text')}`)),
  ];
}

/** Every control and indicator, by box. */
export const station: Verb = {
  help: [
    'keydown station [BOX...]',
    '',
    'Lists controls and what they take, and indicators and what they show, by the names that hand scripts and scenarios use.',
    `Boxes: ${BOXES.map((b) => b.id).join(', ')}. Exit 0, or 2 for a wrong call.`,
  ].join('\n'),
  run(args) {
    const { positionals } = readArgs(args, {});
    const ids = BOXES.map((b) => b.id);
    const stranger = positionals.find((id) => !ids.includes(id));
    if (stranger !== undefined)
      throw new Plain(`no box ${JSON.stringify(stranger)}${meant(stranger, ids)}; boxes: ${ids.join(', ')}`, USAGE);
    const chosen = BOXES.filter((b) => positionals.length === 0 || positionals.includes(b.id));
    process.stdout.write(`${chosen.map((b) => rowsOf(b).join('\n')).join('\n\n')}\n`);
    return OK;
  },
};
