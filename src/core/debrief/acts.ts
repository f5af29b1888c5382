/** The operator's hand in words: acts at one box within seconds are one entry, and the steps of a knob one move. */
import { lasting, times } from '../quantity/time-text.ts';
import { amid, boxName, capital, controlName, type Names, setAs } from '../record/names.ts';
import type { Line } from '../record/record.ts';
import type { Json } from '../signals.ts';
import type { Entry } from './timeline.ts';

/** Acts at one box this long after the first are told apart, and so are refusals this far from each other. */
const GAP_US = 10_000_000;
/** Steps of one knob no further apart are one move, however long it is. */
const STEP_US = 2_000_000;
/** A touch this long is held, not pressed. */
const HELD_US = 500_000;
/** What these leave behind is told by other lines: words on the air, an entry in the log, print. */
const RETOLD: readonly string[] = ['hand.say', 'hand.talk', 'desk.log', 'printer.key'];

type Done = Extract<Line, { k: 'do' }>;
type Refused = Extract<Line, { k: 'refused' }>;
type Part = { control: string; from: Json | undefined; to: Json; n: number; from_us: number; held_us: number };
type Group = { box: string; first: Line; last_us: number; parts: Part[] };

const boxOf = (control: string): string => control.slice(0, control.indexOf('.'));

/** Hears every act and refusal in order, and tells them as entries. */
export class Acts {
  private readonly at: Map<string, Json>;
  private group: Group | undefined;
  private refusal: { line: Refused; n: number; last_us: number } | undefined;
  private readonly out: Entry[] = [];

  /** `found` is where controls stood at instant 0, other than at rest. */
  constructor(
    private readonly names: Names,
    found: Readonly<Record<string, Json>>,
  ) {
    this.at = new Map(Array.from(names.controls, ([full, c]) => [full, c.rest as Json]));
    for (const [full, value] of Object.entries(found)) this.at.set(full, value);
  }

  /** An act, with the refusal that came of it, if any. */
  take(line: Done, refused: Refused | undefined): void {
    if (refused) return this.refuse(refused);
    if (RETOLD.includes(line.control)) return;
    const box = boxOf(line.control);
    if (this.group?.box !== box || !this.belongs(this.group, line)) this.close();
    this.group ??= { box, first: line, last_us: line.t, parts: [] };
    this.group.last_us = line.t;
    this.add(this.group.parts, line);
    this.at.set(line.control, line.value);
  }

  /** Everything told, not in order of time. */
  all(): Entry[] {
    this.close();
    this.closeRefusal();
    return this.out;
  }

  /** Whether an act at the group's box is told with it: it came soon after the first, goes on with a move or ends a press. */
  private belongs({ first, last_us, parts }: Group, { control, value, t }: Done): boolean {
    if (t - first.t <= GAP_US) return true;
    if (parts[parts.length - 1]?.control !== control) return false;
    return t - last_us <= STEP_US || (this.isPress(control) && value === false);
  }

  private isPress(control: string): boolean {
    return this.names.controls.get(control)?.range.kind === 'press';
  }

  private add(parts: Part[], { control, value, t }: Done): void {
    const isPress = this.isPress(control);
    const last = parts[parts.length - 1];
    if (last?.control === control) {
      if (isPress && value === false) last.held_us = t - last.from_us;
      else Object.assign(last, { to: value, n: last.n + 1, from_us: t });
    } else if (!isPress || value !== false)
      parts.push({ control, from: this.at.get(control), to: value, n: 1, from_us: t, held_us: 0 });
  }

  private close(): void {
    const { group } = this;
    this.group = undefined;
    if (!group || group.parts.length === 0) return;
    const box = boxName(this.names, group.box);
    // A control that is called as its box is not named twice.
    const parts = group.parts.map((part) => this.partText(part).replace(`${amid(box)} `, ''));
    const title = `${capital(box)}: ${parts.join(', ')}`;
    this.out.push({ t_us: group.first.t, line: group.first.i, title });
  }

  private partText({ control, from, to, n, held_us }: Part): string {
    const name = amid(controlName(this.names, control));
    if (this.isPress(control)) {
      if (n > 1) return `${name}, ${times(n)}`;
      return held_us >= HELD_US ? `${name} held ${lasting(held_us)}` : name;
    }
    const said = amid(setAs(this.names, control, to));
    if (typeof to !== 'number' || typeof from !== 'number' || from === to) return said;
    return `${name} from ${from} to ${said.slice(name.length + 1)}`;
  }

  private refuse(line: Refused): void {
    const { refusal } = this;
    if (refusal?.line.control === line.control && refusal.line.why === line.why && line.t - refusal.last_us <= GAP_US) {
      refusal.n += 1;
      refusal.last_us = line.t;
      return;
    }
    this.closeRefusal();
    this.refusal = { line, n: 1, last_us: line.t };
  }

  private closeRefusal(): void {
    if (!this.refusal) return;
    const { line, n } = this.refusal;
    const what =
      n === 1 ? setAs(this.names, line.control, line.value) : `${controlName(this.names, line.control)}, ${times(n)}`;
    const where = boxName(this.names, boxOf(line.control));
    this.out.push({ t_us: line.t, line: line.i, title: `Refused: ${where}, ${amid(what)} - ${line.why}` });
    this.refusal = undefined;
  }
}
