/** A debrief as plain text. */
import { lasting, utcAt } from '../quantity/time-text.ts';
import type { Debrief, Finding, Garble, Span } from './debrief.ts';

const WIDTH = 96;

/** Text broken at spaces to lines of at most WIDTH, each after the first indented. */
function wrap(text: string, indent: string): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > WIDTH - indent.length) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line].join(`\n${indent}`);
}

/** What must be met and was not, or was never tried. */
function needed(d: Debrief): string[] {
  if (!d.measures.some((m) => m.exercised)) return ['Nothing was tried that is marked.'];
  const need = d.measures.filter((m) => m.critical && !m.go);
  const said = (of: typeof need, was: string): string[] => {
    const [must, how] = of.length === 1 ? ['This must be met', `was ${was}`] : ['These must be met', `were ${was}`];
    return of.length > 0 ? [`${must}, and ${how}: ${of.map((m) => m.title).join('; ')}.`] : [];
  };
  return [
    ...said(
      need.filter((m) => m.exercised),
      'not',
    ),
    ...said(
      need.filter((m) => !m.exercised),
      'never tried',
    ),
  ];
}

function head(d: Debrief): string[] {
  return [
    `${d.title}: ${d.verdict}, ${d.score.toFixed(1)} of 100 (pass ${d.pass})`,
    ...needed(d).map((line) => wrap(line, '  ')),
    `Worked ${d.manner}, seed ${d.seed}${d.stretch > 1 ? `, time limits ${d.stretch} times longer` : ''}, ${lasting(d.end_us)}${d.ended === 'not ended' ? ', not ended' : `, ended: ${d.ended}`}.`,
    `Recorded by ${d.engine}.`,
    ...(d.helps > 0 ? [`Help was given ${d.helps} ${d.helps === 1 ? 'time' : 'times'}.`] : []),
    ...d.interruptions.map(
      (x) => `Interrupted at ${utcAt(d.utc0, x.at_us)} for ${lasting(x.wall_ms * 1000)}: ${x.why}.`,
    ),
  ];
}

function planned(d: Debrief): string[] {
  const spanText = ({ from_us, to_us }: Span): string => `${utcAt(d.utc0, from_us)} to ${utcAt(d.utc0, to_us)}`;
  const rows = d.moments.map(
    (m) => `  ${m.label.padEnd(12)} ${spanText(m.expected)}   ${m.happened ? spanText(m.happened) : 'never'}`,
  );
  const columns = `  ${''.padEnd(12)} ${'an expert'.padEnd(20)}   you`;
  return ['', 'WHAT WAS PLANNED', `  ${wrap(d.task, '  ')}`, ...(rows.length > 0 ? ['', columns, ...rows] : [])];
}

function happened(d: Debrief): string[] {
  const rows = d.timeline.map((e) => `  ${e.utc}  ${wrap(e.title, '            ')}`);
  return [
    '',
    'WHAT HAPPENED',
    ...rows,
    d.air.length > 0 ? `  On the air ${lasting(d.air_us)} in all.` : '  Never on the air.',
  ];
}

function findingText(f: Finding): string[] {
  const lines = f.because.length > 0 ? ` (record line${f.because.length > 1 ? 's' : ''} ${f.because.join(', ')})` : '';
  return [
    '',
    `  ${f.exercised ? `${f.utc}  ` : ''}${f.head}${f.critical ? ' - must be met' : ''}`,
    `    expected  ${wrap(f.expected, '              ')}`,
    `    happened  ${wrap(f.happened + lines, '              ')}`,
    `    why       ${wrap(f.why, '              ')}`,
    `    next time ${wrap(f.next, '              ')}`,
  ];
}

const unitText = (units: readonly number[]): string => `unit${units.length === 1 ? '' : 's'} ${units.join(', ')}`;

function garbleText(g: Garble): string[] {
  const rows = g.wrong.slice(0, 40).map((w) => {
    const around = `${g.text.slice(Math.max(0, w.at - 8), w.at)}[${w.want}]${g.text.slice(w.at + w.want.length, w.at + 8)}`;
    if (w.how === 'missing') return `    ${around}  missing`;
    if (w.how === 'extra') return `    ${around}  ${JSON.stringify(w.got)} too many`;
    if (w.how === 'case') return `    ${around}  printed ${JSON.stringify(w.got)}: right units, wrong case`;
    return `    ${around}  printed ${JSON.stringify(w.got)}: ${unitText(w.units)} wrong`;
  });
  const rest = g.wrong.length > 40 ? [`    and ${g.wrong.length - 40} more`] : [];
  return [
    '',
    `  ${g.message} as printed at ${g.at}: ${g.errors} of ${g.text.length} characters wrong`,
    ...rows,
    ...rest,
  ];
}

function sustained(d: Debrief): string[] {
  const good = d.measures.filter((m) => m.go);
  if (good.length === 0) return [];
  return [
    '',
    'WHAT TO KEEP',
    ...good.map((m) => `  ${wrap(`${m.title}: ${m.yours} (${m.points} of ${m.of})`, '    ')}`),
  ];
}

/** The debrief for the command line: planned, happened, findings with why and next, what to keep. Ends with a line feed. */
export function explain(d: Debrief): string {
  const findings = d.findings.flatMap(findingText);
  const garbles = d.garbles.filter((g) => g.wrong.length > 0).flatMap(garbleText);
  const out = [
    ...head(d),
    ...planned(d),
    ...happened(d),
    '',
    'WHAT TO WORK ON',
    ...(findings.length > 0 ? findings : ['  Nothing: every measure was met.']),
    ...garbles,
    ...sustained(d),
  ];
  return `${out.join('\n')}\n`;
}
