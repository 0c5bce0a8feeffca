/**
 * The same verification as `verifyBook`, in two threads of its own: nobody who asks the server something meanwhile waits
 * for it, and it takes about half the time. The file is read twice, over two connections for reading alone.
 */
import fs from 'node:fs';
import path from 'node:path';
import { MessageChannel, type Transferable, Worker } from 'node:worker_threads';
import type { Format } from './formats.ts';
import type { VerifyReport } from './verify.ts';
import { type Joined, sharedNumbers } from './verify-together.ts';

/** What a thread is given to do. */
export interface ThreadWork {
  readonly file: string;
  readonly formats: readonly Format[];
  readonly joined: Joined;
  readonly isLeader: boolean;
}

/** Starting the threads takes longer than verifying what is short. */
export const isWorthThreads = (entries: number): boolean => entries >= 10_000;

/** Rejects where the threads can't be started or can't open the file: then whoever has the book open verifies it there. */
export const verifyApart = async (file: string, formats: readonly Format[]): Promise<VerifyReport> => {
  const { port1, port2 } = new MessageChannel();
  const shared = sharedNumbers();
  const work = { file, formats };
  const leader = thread({ ...work, joined: { port: port1, shared }, isLeader: true }, port1);
  const helper = thread({ ...work, joined: { port: port2, shared }, isLeader: false }, port2);
  // Without a helper the leader does it all.
  helper.on('error', () => undefined);
  try {
    return await new Promise<VerifyReport>((resolve, reject) => {
      leader.once('message', resolve);
      leader.once('error', reject);
      leader.once('exit', () => reject(new Error('The verifying thread ended without a report')));
    });
  } finally {
    await Promise.all([leader.terminate(), helper.terminate()]);
  }
};

const thread = (workerData: ThreadWork, port: Transferable): Worker =>
  new Worker(program(), { workerData, transferList: [port], execArgv: [] });

/** Beside the program made into one JavaScript (`api/kept-program.mjs`) lies that of its threads; else it is the sources. */
const program = (): string | URL => {
  const kept = import.meta.dirname === undefined ? '' : path.join(import.meta.dirname, 'verify-thread.js');
  return fs.existsSync(kept) ? kept : new URL('./verify-thread.mjs', import.meta.url);
};
