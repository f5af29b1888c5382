/** The papers of the desk, as tables that any reader can follow. */
import type { CallRow, Card, FrequencyRow, Message } from '../core/scenario/scenario.ts';
import { h } from './dom.ts';

const head = (...names: string[]): HTMLElement =>
  h('thead', {}, h('tr', {}, ...names.map((name) => h('th', { scope: 'col' }, name))));
const hours = (clock: string): string => clock.replace(':', ' ');

/** Which frequency serves when, and which stored setting holds it. */
export const frequencyTable = (rows: readonly FrequencyRow[]): HTMLElement =>
  h(
    'table',
    { class: 'ruled' },
    head('channel', 'kHz', 'setting', 'UTC', 'use'),
    h(
      'tbody',
      {},
      ...rows.map((r) =>
        h(
          'tr',
          {},
          h('th', { scope: 'row' }, r.name),
          h('td', { class: 'mono' }, r.kHz),
          h('td', { class: 'mono' }, r.setting ?? '-'),
          h('td', { class: 'mono' }, `${hours(r.from)} to ${hours(r.to)}`),
          h('td', {}, r.use),
        ),
      ),
    ),
  );

/** Who is who. */
export const callsTable = (rows: readonly CallRow[]): HTMLElement =>
  h(
    'table',
    { class: 'ruled' },
    head('call', 'place', 'who'),
    h(
      'tbody',
      {},
      ...rows.map((r) =>
        h('tr', {}, h('th', { scope: 'row', class: 'mono' }, r.call), h('td', {}, r.place), h('td', {}, r.who)),
      ),
    ),
  );

/** The recognition card: the reply stands where row and column cross. */
export const cardTable = (card: Card): HTMLElement =>
  h(
    'table',
    { class: 'ruled grid mono' },
    h('caption', {}, `Valid on ${card.valid}. Challenge: row, column. Reply: the two letters where they cross.`),
    h('thead', {}, h('tr', {}, h('td', {}), ...[...card.columns].map((c) => h('th', { scope: 'col' }, c)))),
    h(
      'tbody',
      {},
      ...[...card.rows].map((row, i) =>
        h('tr', {}, h('th', { scope: 'row' }, row), ...(card.cells[i] ?? []).map((cell) => h('td', {}, cell))),
      ),
    ),
  );

/** A message as it must go out, line by line. */
export const messageForm = (m: Message): HTMLElement =>
  h('pre', { class: 'letter mono' }, ...m.lines.map((line) => h('span', {}, `${line}\n`)));
