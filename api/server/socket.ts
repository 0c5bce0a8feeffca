/**
 * The socket beneath the server: what is asked of it before a request can be read at all. Even what is no HTTP is answered
 * with a problem document and the headers that keep a browser safe; limits keep strangers from holding connections open.
 */
import fs from 'node:fs';
import http from 'node:http';
import https from 'node:https';
import type { Duplex } from 'node:stream';
import tls from 'node:tls';
import { getRequestListener } from '@hono/node-server';
import type { Logger } from 'pino';
import { UserProblem } from '../../shared/refusal.ts';
import { asProblem, problemResponse, RequestProblem } from './problem.ts';

export interface TlsFiles {
  readonly cert: string;
  readonly key: string;
}

type Fetch = (request: Request, env: unknown) => Response | Promise<Response>;

const LIMITS = {
  maxHeaderSize: 16 * 1024,
  headersTimeout: 15_000,
  requestTimeout: 120_000,
  keepAliveTimeout: 10_000,
  connectionsCheckingInterval: 5_000,
  // A missing Host is answered by us, with a sentence.
  requireHostHeader: false,
};
/** Connections at once: far more than a farm has devices, far fewer than the files a process may open. */
const MOST_CONNECTIONS = 500;

/** For answers that do not come from the app, which sets its own. */
const SAFE_HEADERS = {
  'cache-control': 'no-store',
  'content-security-policy': "default-src 'none'; frame-ancestors 'none'",
  'referrer-policy': 'no-referrer',
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
};

/** A server that does not listen yet. Throws a `UserProblem` where the TLS files are not good. */
export const socketOf = (fetch: Fetch, files: TlsFiles | undefined, log: Logger): http.Server | https.Server => {
  const listener = getRequestListener(fetch, { errorHandler: (error) => unreadable(error, log) });
  const server =
    files === undefined
      ? http.createServer(LIMITS, listener)
      : https.createServer(
          { ...LIMITS, ...checkedPem(files), minVersion: 'TLSv1.2', handshakeTimeout: 15_000 },
          listener,
        );
  server.maxConnections = MOST_CONNECTIONS;
  // A client that asks whether to go on is answered when it went on.
  server.on('checkExpectation', listener);
  server.on('clientError', (error, socket) => noHttp(error, socket));
  return server;
};

/** An answer from outside the app. */
export const bareAnswer = (problem: RequestProblem): Response => problemResponse(problem, '', SAFE_HEADERS);

const unreadable = (error: unknown, log: Logger): Response => {
  const ours = error instanceof Error && error.name === 'RequestError';
  if (!ours) log.error({ err: error }, 'request');
  return bareAnswer(
    ours ? new RequestProblem('not-readable', `The request cannot be read: ${error.message}`) : asProblem(error),
  );
};

/** What came was not HTTP, or too much of it, or too slow. */
const noHttp = (error: NodeJS.ErrnoException, socket: Duplex): void => {
  if (error.code === 'ECONNRESET' || !socket.writable) {
    socket.destroy();
    return;
  }
  const [status, response] =
    error.code === 'HPE_HEADER_OVERFLOW'
      ? [
          '431 Request Header Fields Too Large',
          bareAnswer(new RequestProblem('headers-too-large', 'Send fewer headers')),
        ]
      : error.code === 'ERR_HTTP_REQUEST_TIMEOUT'
        ? [
            '408 Request Timeout',
            bareAnswer(new RequestProblem('request-too-slow', 'It did not come in time; send it again')),
          ]
        : ['400 Bad Request', bareAnswer(new RequestProblem('not-readable', 'What came is not an HTTP request'))];
  void response.text().then((body) => {
    const headers = [...response.headers, ['connection', 'close'], ['content-length', String(Buffer.byteLength(body))]];
    socket.end(`HTTP/1.1 ${status}\r\n${headers.map(([name, value]) => `${name}: ${value}\r\n`).join('')}\r\n${body}`);
  });
};

/** The two files' bytes, tried together before anybody connects. */
const checkedPem = ({ cert, key }: TlsFiles): { cert: Buffer; key: Buffer } => {
  const pem = { cert: bytesOf('--tls-cert', cert), key: bytesOf('--tls-key', key) };
  const tried = (option: string, file: string, what: string, work: () => unknown): void => {
    try {
      work();
    } catch {
      throw new UserProblem(`${option}: ${file} ${what}`, 2);
    }
  };
  tried('--tls-cert', cert, 'is not a certificate in PEM form; give the file that begins BEGIN CERTIFICATE', () =>
    tls.createSecureContext({ cert: pem.cert }),
  );
  tried(
    '--tls-key',
    key,
    'is not a private key in PEM form without a password; give the one made with the certificate',
    () => tls.createSecureContext({ key: pem.key }),
  );
  tried('--tls-key', key, `is not the key of the certificate ${cert}; give the two that were made together`, () =>
    tls.createSecureContext(pem),
  );
  return pem;
};

const bytesOf = (option: string, file: string): Buffer => {
  try {
    return fs.readFileSync(file);
  } catch {
    throw new UserProblem(`${option}: there is no file ${file} that can be read; check the name`, 2);
  }
};
