/** The look inside each link of the ribbon, from the numbers that the drill runs on at that instant. Looking changes nothing. */
import { type EtherLook, insideEther } from './crossing.ts';
import type { LinkName } from './links.ts';
import { insideSender, insideWhip, type SenderLook, type WhipLook } from './radiating.ts';
import {
  type FarWhipLook,
  insideFarWhip,
  insidePrint,
  insideReceiver,
  insideTerminal,
  type PrintLook,
  type ReceiverLook,
  type TerminalLook,
} from './receiving.ts';
import type { Scene } from './scene.ts';
import { insideKeyer, insideKeys, insideLoop, type KeyerLook, type KeysLook, type LoopLook } from './sending.ts';

export type { Carried } from './carried.ts';
export type { Spectrum } from './radiating.ts';
export type { UnitRead } from './reading.ts';
export type { Look } from './sending.ts';
export type { Letter, Piece, Window } from './window.ts';
export type {
  EtherLook,
  FarWhipLook,
  KeyerLook,
  KeysLook,
  LoopLook,
  PrintLook,
  ReceiverLook,
  SenderLook,
  TerminalLook,
  WhipLook,
};

/** What is inside one link, told apart by `link`. */
export type Inside =
  | KeysLook
  | LoopLook
  | KeyerLook
  | SenderLook
  | WhipLook
  | EtherLook
  | FarWhipLook
  | ReceiverLook
  | TerminalLook
  | PrintLook;

const LOOKS: { [L in LinkName]: (scene: Scene, start_us: number | null) => Extract<Inside, { link: L }> } = {
  keys: insideKeys,
  loop: insideLoop,
  keyer: insideKeyer,
  sender: insideSender,
  whip: insideWhip,
  ether: insideEther,
  'far whip': insideFarWhip,
  receiver: insideReceiver,
  'terminal unit': insideTerminal,
  print: insidePrint,
};

/** Look inside a link; `start_us` asks for the letter whose start element began then, null for the one on its way now. */
export const insideOf = (link: LinkName, scene: Scene, start_us: number | null = null): Inside =>
  LOOKS[link](scene, start_us);
