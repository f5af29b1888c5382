/** The result sheet: what is printed, signed and filed. */
import type { Debrief } from '../core/debrief/debrief.ts';
import { h } from './dom.ts';
import { dayText, held, lasting, utcText, wallText } from './hours.ts';

const DEFER = 'Practice only: this sheet licenses nobody to transmit. Local codes and licensed people decide.';

/** The record as the trainer saves it: its text, the name of its file, and the SHA-256 of its bytes. */
export type Saved = { text: string; file: string; sha256: string | undefined };

/** SHA-256 of a text's UTF-8 bytes, as `sha256sum` prints it; undefined where the browser lends no digest (FIPS 180-4). */
export async function sha256Of(text: string): Promise<string | undefined> {
  // Only pages from https, or from the computer itself, are lent it.
  if (!globalThis.crypto?.subtle) return undefined;
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

function recordFacts({ file, sha256 }: Saved): HTMLElement {
  if (sha256 === undefined)
    return h('dd', {}, h('b', {}, file), '. No hash: this browser lends none to a page without https.');
  return h(
    'dd',
    {},
    h('b', {}, file),
    ', SHA-256',
    h('br'),
    h('span', { class: 'result__hash mono' }, sha256),
    h('br'),
    'The file handed in is the record marked here if this command prints the same:',
    h('br'),
    h('span', { class: 'result__hash mono' }, `sha256sum ${file}`),
  );
}

function findings(d: Debrief): HTMLElement | false {
  const one = (f: Debrief['findings'][number]) =>
    h(
      'li',
      {},
      h('b', {}, f.head),
      f.exercised && `, ${utcText(d.utc0, f.at_us)}`,
      `. ${held(f.told)} Next time: ${held(f.next)}`,
    );
  return (
    d.findings.length > 0 &&
    h('section', { class: 'result__findings' }, h('h2', {}, 'To mend'), h('ol', {}, ...d.findings.map(one)))
  );
}

function facts(d: Debrief, saved: Saved): HTMLElement {
  const times = d.moments.flatMap((m) => (m.happened ? [`${m.label} ${utcText(d.utc0, m.happened.from_us)}`] : []));
  const row = (name: string, value: string) => [h('dt', {}, name), h('dd', {}, value)];
  const away = d.interruptions.map((i) => `${utcText(d.utc0, i.at_us)} for ${lasting(i.wall_ms * 1000)} (${i.why})`);
  return h(
    'dl',
    { class: 'result__facts' },
    row('Drill', `${d.title}, draw ${d.seed}`),
    row('Manner', `${d.manner}, limits ${d.stretch === 1 ? 'as stated' : `${d.stretch} times as stated`}`),
    row(
      'Worked',
      `${dayText(d.date)}, ${utcText(d.utc0, 0)} to ${utcText(d.utc0, d.end_us)} UTC (${lasting(d.end_us)}), ${d.ended}`,
    ),
    row('Times, UTC', times.length > 0 ? held(times.join(', ')) : 'none'),
    row('Help given', d.helps === 0 ? 'none' : `${d.helps} times`),
    row('Interruptions', away.length > 0 ? away.join('; ') : 'none'),
    row('Engine', d.engine),
    row('Printed', wallText(Date.now())),
    [h('dt', {}, 'Record'), recordFacts(saved)],
  );
}

function table(d: Debrief): HTMLElement {
  const head = h(
    'tr',
    {},
    ...['Measure', 'Standard', 'Trainee', 'Result', 'Points'].map((name) => h('th', { scope: 'col' }, name)),
  );
  const rows = d.measures.map((m) =>
    h(
      'tr',
      { class: m.critical && 'must' },
      h('th', { scope: 'row' }, m.title, m.critical && '\u00a0*'),
      h('td', {}, held(m.standard)),
      h('td', {}, held(m.yours)),
      h('td', {}, m.go ? 'met' : m.exercised ? 'NOT\u00a0MET' : 'NOT\u00a0TRIED'),
      h('td', { class: 'mono' }, `${Math.round(m.points)}/${m.of}`),
    ),
  );
  return h(
    'table',
    { class: 'result__table' },
    h('caption', {}, '* must be met'),
    h('thead', {}, head),
    h('tbody', {}, ...rows),
  );
}

const signature = (who: string): HTMLElement =>
  h('div', { class: 'result__sign' }, h('span', {}), h('p', {}, `${who}, date`));

/** A name on a sheet, and what keeps it with its run. */
export type SheetName = { typed: string; keep(name: string): void };

/** The field for the trainee's name, and the name as it stands on the sheet. */
export function nameField({ typed, keep }: SheetName): { field: HTMLElement; written: HTMLElement } {
  const name = h('input', {
    class: 'entry',
    id: 'trainee',
    maxlength: 60,
    autocomplete: 'off',
    value: typed,
  });
  const written = h('b', {}, name.value);
  name.addEventListener('input', () => {
    written.textContent = name.value;
    keep(name.value);
  });
  return {
    field: h('p', { class: 'result__field' }, h('label', { for: 'trainee' }, 'Name on the printed sheet'), name),
    written,
  };
}

/** The sheet that the printer gets. */
export const resultSheet = (d: Debrief, name: HTMLElement, saved: Saved): HTMLElement =>
  h(
    'section',
    { class: 'result__print', 'aria-label': 'Sheet for the printer' },
    h('h1', {}, d.manner === 'assessed' ? 'Result sheet' : 'Practice sheet'),
    h('p', { class: 'result__who' }, 'Trainee: ', name),
    h(
      'p',
      { class: 'result__verdict' },
      h('strong', {}, d.verdict),
      ` ${Math.round(d.score)} points of 100; GO from ${d.pass} with every measure marked * met`,
    ),
    facts(d, saved),
    table(d),
    findings(d),
    h('div', { class: 'result__signs' }, signature('Trainee'), signature('Instructor')),
    h('p', {}, DEFER),
  );
