/**
 * Two threads that check one log: the leader goes through it in order, the helper takes stripes off it, and whoever is free
 * takes the next. They share three numbers; what the helper found comes as messages. The leader never relies on the helper:
 * what does not come in time it does itself, and a stripe that is not clean it goes through row by row in any case.
 */
import { type MessagePort, receiveMessageOnPort } from 'node:worker_threads';
import { type CowStart, cowStart } from './cow-entries.ts';
import type { Connection } from './tables.ts';
import { type Clean, STRIPE, type Stripes, stripeCheck } from './verify-stripes.ts';

/** What the two threads are joined by: each has one end of the channel. */
export interface Joined {
  readonly port: MessagePort;
  readonly shared: SharedArrayBuffer;
}

/** The leader's word to the helper. */
export interface Task {
  readonly count: number;
  readonly start: CowStart;
}

/** Places in the shared numbers: the next stripe nobody has, how many messages were sent, and how far the leader is. */
const [NEXT, SENT, TAKEN] = [0, 1, 2];
const NUMBERS = 3;
export const sharedNumbers = (): SharedArrayBuffer => new SharedArrayBuffer(NUMBERS * Int32Array.BYTES_PER_ELEMENT);

/** The helper is at most so many stripes ahead, so that memory stays as it is however long the log. */
const MOST_AHEAD = 128;
/** Milliseconds after which the leader no longer waits for a stripe that the helper has begun. */
const PATIENCE = 10_000;

interface Sent {
  readonly index: number;
  readonly clean: Clean | undefined;
}

/** The leader's side. Only whole stripes are shared; the rest of the log is the leader's alone. */
export const sharedStripes = (db: Connection, { port, shared }: Joined): { start: CowStart; stripes: Stripes } => {
  const numbers = new Int32Array(shared);
  const start = cowStart(db);
  const entries = db.prepare<[], number>('select count(*) from entries').pluck().get() ?? 0;
  const count = Math.floor(entries / STRIPE);
  const check = stripeCheck(db, start);
  const ready = new Map<number, Clean | undefined>();
  const receive = (): void => {
    for (let got = receiveMessageOnPort(port); got !== undefined; got = receiveMessageOnPort(port)) {
      const { index, clean }: Sent = got.message;
      ready.set(index, clean);
    }
  };
  const take = (index: number): Clean | undefined => {
    for (;;) {
      const sent = Atomics.load(numbers, SENT);
      receive();
      if (ready.has(index)) break;
      const mine = Atomics.add(numbers, NEXT, 1);
      if (mine < count) ready.set(mine, check(mine));
      else if (Atomics.wait(numbers, SENT, sent, PATIENCE) === 'timed-out') break;
    }
    const clean = ready.get(index);
    ready.delete(index);
    Atomics.store(numbers, TAKEN, index + 1);
    Atomics.notify(numbers, TAKEN);
    return clean;
  };
  const task: Task = { count, start };
  port.postMessage(task);
  return { start, stripes: { count, take } };
};

/** The helper's side: works until nothing is left to take. */
export const helpWith = (db: Connection, { count, start }: Task, { port, shared }: Joined): void => {
  const numbers = new Int32Array(shared);
  const check = stripeCheck(db, start);
  for (let index = Atomics.add(numbers, NEXT, 1); index < count; index = Atomics.add(numbers, NEXT, 1)) {
    const sent: Sent = { index, clean: check(index) };
    port.postMessage(sent);
    Atomics.add(numbers, SENT, 1);
    Atomics.notify(numbers, SENT);
    for (let taken = Atomics.load(numbers, TAKEN); index - taken > MOST_AHEAD; taken = Atomics.load(numbers, TAKEN)) {
      Atomics.wait(numbers, TAKEN, taken, PATIENCE);
    }
  }
};
