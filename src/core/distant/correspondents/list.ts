/** Every kind of distant station. */
import type { Correspondent } from '../correspondent.ts';
import { beacon } from './beacon.ts';
import { chatter } from './chatter.ts';
import { post } from './post.ts';
import { recording } from './recording.ts';

/** In the order in which they were thought of. */
export const CORRESPONDENTS: readonly Correspondent[] = [
  post as unknown as Correspondent,
  chatter as unknown as Correspondent,
  beacon as unknown as Correspondent,
  recording as unknown as Correspondent,
];
