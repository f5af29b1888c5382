/**
 * The only file that runs XState. A machine here is flat and holds modes only: no context, no invoked actors. Its `after`
 * delays become entries of our own queue, so that a snapshot saves, restores and replays exactly.
 */
import {
  type AnyMachineSnapshot,
  type AnyStateMachine,
  createActor,
  type EventObject,
  initialTransition,
} from 'xstate';

/** A delay that a mode asked for: tell the machine `event` after `delay_us`, unless `id` is cancelled first. */
export type Delay = { id: string; delay_us: number; event: string };
/** What one event did: the mode now, delays begun, ids of delays ended. */
export type Moved = { mode: string; started: Delay[]; ended: string[] };

type Action = { type: string; params?: { id?: string; sendId?: string; delay?: number; event?: EventObject } };
type Runner = { scope: unknown; out: Action[]; moves: Map<string, Moved> };

const runners = new WeakMap<AnyStateMachine, Runner>();

/** One inert actor a machine, reused: five times faster than `transition()`, equal to it (test/core/kernel/machine.test.ts). */
function runnerOf(machine: AnyStateMachine): Runner {
  const known = runners.get(machine);
  if (known !== undefined) return known;
  const self = createActor(machine);
  const out: Action[] = [];
  const nothing = () => {};
  const actionExecutor = (a: Action) => out.push(a);
  const scope = {
    self,
    system: self.system,
    id: '',
    sessionId: 'core',
    logger: nothing,
    defer: nothing,
    stopChild: nothing,
    emit: nothing,
    actionExecutor,
  };
  const made: Runner = { scope, out, moves: new Map() };
  runners.set(machine, made);
  return made;
}

function collect(mode: string, actions: readonly Action[]): Moved {
  const moved: Moved = { mode, started: [], ended: [] };
  for (const { type, params } of actions) {
    if (type === 'xstate.raise' && params?.event)
      moved.started.push({
        id: String(params.id),
        delay_us: Math.round((params.delay ?? 0) * 1000),
        event: params.event.type,
      });
    else if (type === 'xstate.cancel') moved.ended.push(String(params?.sendId));
    else throw new RangeError(`machines in core hold modes only, but one asked for action ${type}`);
  }
  return moved;
}

/** The machine's first mode and the delays it begins with. */
export function firstMode(machine: AnyStateMachine): Moved {
  const [snapshot, actions] = initialTransition(machine);
  return collect(String(snapshot.value), actions as unknown as Action[]);
}

/**
 * Send `event` to a machine standing in `mode`. Without context or guards the answer depends on the two alone, so each
 * pair is asked of XState once. Throws RangeError for a mode the machine does not have.
 */
export function move(machine: AnyStateMachine, mode: string, event: string): Moved {
  const runner = runnerOf(machine);
  const key = `${mode} ${event}`;
  const known = runner.moves.get(key);
  if (known !== undefined) return known;
  if (!(mode in machine.states)) throw new RangeError(`no mode ${mode} in machine ${machine.id}`);
  const snapshot = machine.resolveState({ value: mode, context: {} }) as AnyMachineSnapshot;
  runner.out.length = 0;
  const next = machine.transition(snapshot, { type: event }, runner.scope as never);
  const moved = collect(String(next.value), runner.out);
  runner.moves.set(key, moved);
  return moved;
}
