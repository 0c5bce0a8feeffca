/** The other book's signed checkpoint: which log it speaks of, and whether its own key signed it. Nothing is believed yet. */
import { type Checkpoint, noteIsSignedBy, parseCheckpoint } from '../../events/log/note.ts';
import { Hitch } from './hitch.ts';
import type { StandingSaid } from './other-book.ts';

export interface Shown extends Checkpoint {
  /** False where that book has lost its key: its log can still be checked, but nobody signs for it. */
  readonly signed: boolean;
}

/** Throws where it is of another book, or carries a signature that is not good. */
export const checkpointIn = ({ book, verifierKey, checkpoint }: StandingSaid): Shown => {
  const read = parseCheckpoint(checkpoint);
  if (read === undefined || read.origin !== `byrebook/${book}`) {
    throw new Hitch(
      'The other book shows no checkpoint of its own; its server is broken or something stands before it',
    );
  }
  const { name, publicKey } = keyIn(verifierKey);
  if (name === read.origin && publicKey.length === 32 && noteIsSignedBy(checkpoint, name, publicKey)) {
    return { ...read, signed: true };
  }
  if (checkpoint.endsWith('\n\nunsigned\n')) return { ...read, signed: false };
  throw new Hitch('The checkpoint of the other book is not signed by the key it shows; nothing was taken');
};

/** `<name>+<key id>+<base64 of type and key>`; base64 may hold a plus itself. */
const keyIn = (text: string): { name: string; publicKey: Uint8Array } => {
  const [name = '', , ...rest] = text.split('+');
  return { name, publicKey: Buffer.from(rest.join('+'), 'base64').subarray(1) };
};
