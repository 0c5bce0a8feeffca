/** What went wrong with sheets that come by the clock, for the desk to say until a later try works. Nothing of it is kept: a new process tries anew. */
import type { Instant } from '../../shared/instant.ts';

export interface PaperTrouble {
  /** `set`: none could be issued. `folder`, `printer`: a set did not get there. */
  readonly what: 'set' | 'folder' | 'printer';
  readonly milking: string;
  /** Of the set that hangs nowhere yet. */
  readonly ref?: string;
  /** The folder or the printer. */
  readonly where: string;
  readonly at: Instant;
  /** What the log says of it. */
  readonly why: string;
}

type Work = 'issuing' | 'delivering';

export interface PaperTroubles {
  readonly standing: () => readonly PaperTrouble[];
  readonly failed: (work: Work, trouble: PaperTrouble) => void;
  readonly worked: (work: Work) => void;
}

export const paperTroubles = (): PaperTroubles => {
  const troubles = new Map<Work, PaperTrouble>();
  return {
    standing: () => [...troubles.values()],
    failed: (work, trouble) => void troubles.set(work, trouble),
    worked: (work) => void troubles.delete(work),
  };
};
