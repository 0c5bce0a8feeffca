/**
 * The socket: loopback unless told otherwise, plain HTTP only there or behind a proxy that is named. Stopping is graceful:
 * nothing new comes in, streams end, what has begun is finished, and the book is closed last.
 */
import fs from 'node:fs';
import http from 'node:http';
import https from 'node:https';
import type { AddressInfo } from 'node:net';
import os from 'node:os';
import { createAdaptorServer, type HttpBindings } from '@hono/node-server';
import type { Logger } from 'pino';
import type { Book } from '../../events/book.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { type App, appOf } from './app.ts';
import { asProblem, problemResponse, RequestProblem } from './problem.ts';

export interface ListenSettings {
  readonly book: Book;
  readonly log: Logger;
  /** 0 lets the system choose. */
  readonly port: number;
  /** Address to listen on; loopback when absent. */
  readonly listen?: string | undefined;
  readonly tls?: { readonly cert: string; readonly key: string } | undefined;
  /** Address of the proxy that carries the TLS; only its word is taken for where a request came from. */
  readonly proxy?: string | undefined;
  /** More names the server answers to. */
  readonly hosts?: readonly string[] | undefined;
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
  const { book, log, port, listen = LOOPBACK, tls, proxy, hosts = [] } = settings;
  const local = ['127.0.0.1', '::1', 'localhost'].includes(listen);
  if (!local && tls === undefined && proxy === undefined) {
    throw new UserProblem(
      '--listen beyond this computer needs --tls-cert and --tls-key, or --proxy with the address of the proxy that carries the TLS: tokens must not travel in the open',
      2,
    );
  }
  const app = appOf({
    book,
    log,
    names: [...hosts, ...(local ? [] : namesOf(listen))],
    addressOf: (request, env) => addressOf(request, env, proxy),
  });
  const limits = {
    maxHeaderSize: 16 * 1024,
    headersTimeout: 15_000,
    requestTimeout: 120_000,
    keepAliveTimeout: 10_000,
  };
  const options = {
    fetch: (request: Request, env: unknown) => app.fetch(request, env),
    errorHandler: (error: unknown) => unreadable(error, log),
  };
  const server =
    tls === undefined
      ? createAdaptorServer({ ...options, createServer: http.createServer, serverOptions: limits })
      : createAdaptorServer({
          ...options,
          createServer: https.createServer,
          serverOptions: { ...limits, cert: fileFor('--tls-cert', tls.cert), key: fileFor('--tls-key', tls.key) },
        });
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
    stop: () =>
      new Promise((resolve) => {
        const hurry = setTimeout(() => {
          if ('closeAllConnections' in server) server.closeAllConnections();
        }, PATIENCE);
        app.streams.stop();
        server.close(() => {
          clearTimeout(hurry);
          void app.issuing.settled().then(resolve);
        });
        if ('closeIdleConnections' in server) server.closeIdleConnections();
      }),
  };
};

/** A bare address can't be taken over by a name of somebody else's; on all of them, it is each of this computer's. */
const namesOf = (listen: string): string[] => {
  const bracketed = (address: string): string => (address.includes(':') ? `[${address}]` : address);
  if (listen !== '0.0.0.0' && listen !== '::') return [bracketed(listen)];
  const own = Object.values(os.networkInterfaces()).flatMap((each) => (each ?? []).map(({ address }) => address));
  return [...own.map(bracketed), os.hostname()];
};

const addressOf = (request: Request, env: unknown, proxy: string | undefined): string => {
  const remote = plain((env as Partial<HttpBindings> | undefined)?.incoming?.socket.remoteAddress ?? 'unknown');
  if (proxy === undefined || remote !== proxy) return remote;
  // The last one is what our proxy saw; those before it are hearsay.
  return request.headers.get('x-forwarded-for')?.split(',').at(-1)?.trim() ?? remote;
};

const plain = (address: string): string => address.replace(/^::ffff:/, '');

const unreadable = (error: unknown, log: Logger): Response => {
  const ours = error instanceof Error && error.name === 'RequestError';
  const problem = ours
    ? new RequestProblem('not-readable', `The request cannot be read: ${error.message}`)
    : asProblem(error);
  if (!ours) log.error({ err: error }, 'request');
  return problemResponse(problem, '');
};

const fileFor = (option: string, file: string): Buffer => {
  try {
    return fs.readFileSync(file);
  } catch {
    throw new UserProblem(`${option}: there is no file ${file} that can be read; check the name`, 2);
  }
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
