/**
 * What an operator can know: panel, ear, print and papers. The model operator and the guide read this and nothing else,
 * so neither can know what a trainee could not.
 */
import type { ControlValue, Json } from '../signals.ts';

/** A reading of the shelter at one instant. Looking changes nothing. */
export interface View {
  readonly now_us: number;
  /** What indicator `box.id` shows; undefined if there is none. */
  see(indicator: string): Json | undefined;
  /** Where control `box.id` stands; undefined if there is none. */
  standing(control: string): ControlValue | undefined;
  /** What the operator set control `box.id` to since `since_us`, in order, without what was refused. */
  did(control: string, since_us: number): ControlValue[];
  /** What the ear made out since `since_us`, utterances joined by ` | `. */
  heard(since_us: number): string;
  /** What the own printer printed since `since_us`, line ends as newlines. */
  printed(since_us: number): string;
}
