/**
 * The socket: loopback unless told otherwise, plain HTTP only there or behind a proxy that is named. Stopping is graceful:
 * nothing new comes in, streams end, what has begun is finished, and the book is closed last.
 */
import type { AddressInfo } from 'node:net';
import os from 'node:os';
import type { Logger } from 'pino';
import type { Book } from '../../events/book.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { type App, appOf } from './app.ts';
import { cameFrom } from './came-from.ts';
import { connectionsOf } from './connections.ts';
import { RequestProblem } from './problem.ts';
import { bareAnswer, socketOf, type TlsFiles } from './socket.ts';

export interface ListenSettings {
  readonly book: Book;
  readonly log: Logger;
  /** 0 lets the system choose. */
  readonly port: number;
  /** Address to listen on; loopback when absent. */
  readonly listen?: string | undefined;
  readonly tls?: TlsFiles | undefined;
  /** Address of the proxy that carries the TLS; only its word is taken for where a request came from. */
  readonly proxy?: string | undefined;
  /** More names the server answers to. */
  readonly hosts?: readonly string[] | undefined;
  /** Milliseconds that whoever is still being answered has when it ends; 10,000 when absent. */
  readonly patience?: number | undefined;
  /** Print queue that the desk sends the wall set to. */
  readonly printer?: string | undefined;
}

export interface Serving {
  readonly app: App;
  readonly url: string;
  /** Ends it; resolves when nothing is running any more. The book stays open. */
  readonly stop: () => Promise<void>;
}

const LOOPBACK = '127.0.0.1';
const PATIENCE = 10_000;

export const startServing = async (settings: ListenSettings): Promise<Serving> => {
  const { book, log, port, listen = LOOPBACK, tls, proxy, hosts = [], patience = PATIENCE, printer } = settings;
  const local = ['127.0.0.1', '::1', 'localhost'].includes(listen);
  if (!local && tls === undefined && proxy === undefined) {
    throw new UserProblem(
      '--listen beyond this computer needs --tls-cert and --tls-key, or --proxy with the address of the proxy that carries the TLS: tokens must not travel in the open',
      2,
    );
  }
  const from = cameFrom(proxy);
  const app = appOf({
    book,
    log,
    names: [...hosts, ...(local ? [] : namesOf(listen))],
    addressOf: from.addressOf,
    printer,
  });
  const answering = new Set<Promise<unknown>>();
  const answer = async (request: Request, env: unknown): Promise<Response> => {
    if (!local && tls === undefined && !from.isInside(env)) return bareAnswer(IN_THE_OPEN);
    return app.fetch(request, env);
  };
  const fetch = (request: Request, env: unknown): Promise<Response> => {
    const answered = answer(request, env);
    answering.add(answered);
    return answered.finally(() => answering.delete(answered));
  };
  const server = socketOf(fetch, tls, log);
  const connections = connectionsOf(server);
  await new Promise<void>((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => reject(cannotListen(error, listen, port)));
    server.listen(port, listen, () => resolve());
  });
  server.on('error', (error) => log.error({ err: error }, 'socket'));
  const { port: given } = server.address() as AddressInfo;
  const name = listen.includes(':') ? `[${listen}]` : listen;
  return {
    app,
    url: `${tls === undefined ? 'http' : 'https'}://${name}:${given}`,
    stop: async () => {
      const hurry = setTimeout(() => connections.cut(), patience);
      const closed = new Promise((resolve) => server.close(resolve));
      app.streams.stop();
      connections.finish();
      await closed;
      clearTimeout(hurry);
      await Promise.allSettled(answering);
      await app.issuing.settled();
    },
  };
};

const IN_THE_OPEN = new RequestProblem(
  'not-encrypted',
  'This server speaks in the open only with its proxy: come through that, so that tokens travel encrypted',
);

/** A bare address can't be taken over by a name of somebody else's; on all of them, it is each of this computer's. */
const namesOf = (listen: string): string[] => {
  const bracketed = (address: string): string => (address.includes(':') ? `[${address}]` : address);
  if (listen !== '0.0.0.0' && listen !== '::') return [bracketed(listen)];
  const own = Object.values(os.networkInterfaces()).flatMap((each) => (each ?? []).map(({ address }) => address));
  return [...own.map(bracketed), os.hostname()];
};

const cannotListen = ({ code, message }: NodeJS.ErrnoException, listen: string, port: number): UserProblem =>
  new UserProblem(
    code === 'EADDRINUSE'
      ? `Port ${port} is in use on ${listen}: another server runs there. Stop it, or choose another with --port`
      : code === 'EACCES'
        ? `Port ${port} may not be used by you; choose one above 1023 with --port`
        : `The server cannot listen on ${listen} (${code ?? message}); check --listen and --port`,
    2,
  );
