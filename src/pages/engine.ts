/** A run that another version of the trainer began: it goes on, its acts worked again by this one, and everything says so. */
import { ENGINE, type Header } from '../core/record/record.ts';

/** The version that began a run, if it was another. */
export const otherEngine = ({ engine }: Pick<Header, 'engine'>): string | undefined =>
  engine === ENGINE ? undefined : engine;

/** Engine of the record that a run's acts make now, as in its header. */
export const engineOf = (head: Pick<Header, 'engine'>): string => {
  const other = otherEngine(head);
  return other === undefined ? ENGINE : `${ENGINE}, begun with ${other}`;
};
