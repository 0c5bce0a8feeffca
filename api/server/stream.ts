/**
 * The log as it grows, to whoever listens. Each listener is sent rows by position, one after the other: it never sees a gap,
 * nor an entry that is not yet committed. Another program may write to the same book, so the end is also looked at by the clock.
 */
import type { Logger } from 'pino';
import type { Book } from '../../events/book.ts';
import { steadyMilliseconds } from '../../shared/clock.ts';
import { RequestProblem } from './problem.ts';
import type { Caller } from './route.ts';

export interface Listener {
  readonly after: number;
  readonly caller: Caller;
  /** False once the device is revoked. */
  readonly still: () => boolean;
  readonly signal: AbortSignal;
  readonly log: Logger;
}

export interface Streams {
  readonly open: (listener: Listener) => Response;
  /** Something was recorded just now. */
  readonly wake: () => void;
  readonly count: () => number;
  /** Ends every stream; later ones are refused. */
  readonly stop: () => void;
}

const LOOK_EVERY = 500;
const HEARTBEAT_EVERY = 15_000;
const PAGE = 200;
const MOST_STREAMS = 100;
const MOST_OF_ONE = 10;

export const streamsOf = (book: Book): Streams => {
  const open = new Map<symbol, { caller: Caller; wake: () => void }>();
  let stopped = false;
  return {
    open: (listener) => {
      const own = [...open.values()].filter(({ caller }) => caller.id === listener.caller.id).length;
      if (stopped || open.size >= MOST_STREAMS || own >= MOST_OF_ONE) {
        throw new RequestProblem('too-often', 'So many streams are open that no more are; close one, or pull instead', {
          retryAfter: 30,
        });
      }
      const key = Symbol(listener.caller.name);
      let wake = (): void => {};
      const woken = (): Promise<void> =>
        new Promise((resolve) => {
          const timer = setTimeout(resolve, LOOK_EVERY);
          wake = () => {
            clearTimeout(timer);
            resolve();
          };
        });
      open.set(key, { caller: listener.caller, wake: () => wake() });
      const end = (): void => {
        open.delete(key);
        wake();
      };
      listener.signal.addEventListener('abort', end);
      const pieces = events(book, listener, () => !stopped && open.has(key) && listener.still(), woken);
      return new Response(bytesOf(pieces, end, listener.log), {
        headers: { 'content-type': 'text/event-stream', 'x-accel-buffering': 'no' },
      });
    },
    wake: () => {
      for (const { wake } of open.values()) wake();
    },
    count: () => open.size,
    stop: () => {
      stopped = true;
      for (const { wake } of open.values()) wake();
    },
  };
};

/** `goOn` is asked before every look at the log, so that a revoked device hears nothing more. */
async function* events(
  book: Book,
  { after }: Listener,
  goOn: () => boolean,
  woken: () => Promise<void>,
): AsyncGenerator<string> {
  let position = after;
  let heard = steadyMilliseconds();
  yield 'retry: 2000\n\n';
  while (goOn()) {
    const rows = book.rows(position, PAGE);
    for (const row of rows) {
      if (row.position !== position + 1) throw new Error(`The log has a gap behind position ${position}`);
      position = row.position;
    }
    if (rows.length > 0) {
      heard = steadyMilliseconds();
      yield rows.map((row) => `id: ${row.position}\ndata: ${row.entry}\n\n`).join('');
      continue;
    }
    if (steadyMilliseconds() - heard > HEARTBEAT_EVERY) {
      heard = steadyMilliseconds();
      yield ': still here\n\n';
    }
    await woken();
  }
}

/** A body that is made only as fast as it is read. */
const bytesOf = (pieces: AsyncGenerator<string>, end: () => void, log: Logger): ReadableStream<Uint8Array> => {
  const encoder = new TextEncoder();
  return new ReadableStream<Uint8Array>(
    {
      pull: async (controller) => {
        try {
          const next = await pieces.next();
          if (next.done !== true) {
            controller.enqueue(encoder.encode(next.value));
            return;
          }
        } catch (error) {
          // What it heard so far is whole; it comes back with Last-Event-ID and is told what is wrong then.
          log.error({ err: error }, 'stream ended');
        }
        controller.close();
        end();
      },
      cancel: async () => {
        end();
        await pieces.return(undefined);
      },
    },
    { highWaterMark: 0 },
  );
};
