/**
 * One request to the other book, asked again a bounded number of times where that may help. Every request here may be
 * repeated: reading changes nothing, and a push that was taken already is known there. Gives what was read or throws a
 * `Hitch`; an answer of another type, broken off or endless is never taken for one.
 */
import { setTimeout as pause } from 'node:timers/promises';
import { Hitch, hitchOf, hitchOfNetwork } from './hitch.ts';

export interface Patience {
  /** How often a request is tried in all. */
  readonly tries: number;
  /** Milliseconds before the second try; twice as long before each further one. */
  readonly firstWait: number;
  /** Seconds that the other side may ask us to wait; more, and the person is told instead. */
  readonly longestWait: number;
  /** Milliseconds without a byte after which a connection counts as broken. */
  readonly silence: number;
}

export const PATIENCE: Patience = { tries: 6, firstWait: 400, longestWait: 60, silence: 60_000 };

export interface Wanted<T> {
  readonly method?: 'GET' | 'POST';
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: string;
  readonly type: string;
  /** Reads the text of the answer; throws where that is not whole. */
  readonly read: (text: string) => T;
}

export interface Answered<T> {
  readonly value: T;
  readonly headers: Headers;
}

/** `make` gives the request for each try, so that a later one may ask for less. */
export type Ask = <T>(path: string | ((attempt: number) => string), wanted: Wanted<T>) => Promise<Answered<T>>;

/** More than any page is; what goes on longer is no book. */
const MOST_BYTES = 64 * 1024 * 1024;

export const askerOf =
  (address: string, token: string, patience: Patience = PATIENCE): Ask =>
  async (path, wanted) => {
    for (let attempt = 0; ; attempt += 1) {
      try {
        const where = typeof path === 'string' ? path : path(attempt);
        return await once(address, where, token, wanted, patience.silence);
      } catch (thrown) {
        if (!(thrown instanceof Hitch) || !thrown.again) throw thrown;
        if (attempt + 1 >= patience.tries) throw tried(thrown, patience.tries);
        const asked = thrown.wait ?? 0;
        if (asked > patience.longestWait)
          throw new Hitch(`${thrown.message}. Sync again in ${asked} seconds`, {
            ...thrown,
            again: false,
          });
        await pause(Math.max(asked * 1_000, patience.firstWait * 2 ** attempt));
      }
    }
  };

const tried = (hitch: Hitch, times: number): Hitch =>
  new Hitch(`${hitch.message} (tried ${times} ${times === 1 ? 'time' : 'times'})`, { ...hitch, again: false });

const once = async <T>(
  address: string,
  path: string,
  token: string,
  { method = 'GET', headers = {}, body, type, read }: Wanted<T>,
  silence: number,
): Promise<Answered<T>> => {
  const aborter = new AbortController();
  const watch = setTimeout(() => aborter.abort(new Error('no answer came')), silence);
  try {
    const answer = await fetch(`${address}${path}`, {
      method,
      redirect: 'manual',
      signal: aborter.signal,
      headers: { authorization: `Bearer ${token}`, accept: type, ...headers },
      ...(body === undefined ? {} : { body }),
    });
    const text = await textOf(answer, () => watch.refresh());
    if (answer.status !== 200) throw hitchOf(address, answer, text);
    const said = (answer.headers.get('content-type') ?? 'nothing').split(';')[0]?.trim().toLowerCase();
    if (said !== type) {
      throw new Hitch(
        `${address} answers with ${said === 'text/html' ? 'a page for people' : (said ?? 'nothing')} and not as a book does; check the address, and whether a proxy or a sign-in page stands before it`,
        { status: 200 },
      );
    }
    return { value: readBy(read, address, text), headers: answer.headers };
  } catch (thrown) {
    throw thrown instanceof Hitch
      ? thrown
      : hitchOfNetwork(address, aborter.signal.aborted ? aborter.signal.reason : thrown);
  } finally {
    clearTimeout(watch);
  }
};

const textOf = async (answer: Response, alive: () => void): Promise<string> => {
  const pieces: Uint8Array[] = [];
  let length = 0;
  for await (const piece of answer.body ?? []) {
    alive();
    length += piece.length;
    if (length > MOST_BYTES) throw new Hitch('The answer has no end; that is no server of a book, check the address');
    pieces.push(piece);
  }
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(Buffer.concat(pieces));
  } catch {
    throw new Hitch('An answer came damaged: it is not UTF-8', { again: true });
  }
};

const readBy = <T>(read: (text: string) => T, address: string, text: string): T => {
  try {
    return read(text);
  } catch {
    throw new Hitch(`An answer of ${address} came cut off or damaged, and nothing of it was taken`, { again: true });
  }
};
