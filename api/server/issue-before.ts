/**
 * The sheets come out of the printer by themselves: each milking's set so long before it starts, once, and again with
 * REPLACES on it where late news makes it wrong before the milking ends. What was issued stands in the book and what was
 * printed in the folder, so a restart, a sleeping computer or a changed clock issues nothing twice. One timer that looks
 * often and never trusts a long wait; whatever fails is said in the log and tried again, and nobody waits for it.
 */
import { setTimeout as wait } from 'node:timers/promises';
import { roundsOf } from './issue-before-round.ts';
import { type IssueBeforeSettings, PACES } from './issue-before-settings.ts';

export interface IssueBefore {
  /** Looks once more; resolves when what was due is done or has failed. Never rejects. */
  readonly look: () => Promise<void>;
  /** Resolves when nothing is running any more. */
  readonly stop: () => Promise<void>;
}

export const issueBefore = (settings: IssueBeforeSettings): IssueBefore => {
  const paces = { ...PACES, ...settings.paces };
  const ending = new AbortController();
  const round = roundsOf(settings, paces, ending.signal);
  let last: Promise<void> = Promise.resolve();
  const look = (): Promise<void> => {
    last = last
      .then(() => (ending.signal.aborted ? undefined : round()))
      .catch((error: unknown) =>
        settings.log.error({ err: error }, 'Whether sheets are due could not be seen; it is tried again'),
      );
    return last;
  };
  const looking = (async () => {
    while (!ending.signal.aborted) {
      await look();
      await wait(paces.lookEvery, undefined, { signal: ending.signal }).catch(() => undefined);
    }
  })();
  return {
    look,
    stop: async () => {
      ending.abort();
      await looking;
      await last;
    },
  };
};
