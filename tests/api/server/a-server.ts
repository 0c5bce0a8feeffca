/** A real server on loopback over a real book, with devices of every role, and the ways to ask it. */
import http from 'node:http';
import { pino } from 'pino';
import { onTestFinished } from 'vitest';
import { z } from 'zod';
import { ROLES, type Role } from '../../../api/devices/roles.ts';
import { type ListenSettings, type Serving, startServing } from '../../../api/server/listen.ts';
import { receiptsSchema } from '../../../api/server/schemas.ts';
import { type Book, openBook } from '../../../events/book.ts';
import { readValue } from '../../../events/door.ts';
import type { Clock } from '../../../shared/clock.ts';
import type { Instant } from '../../../shared/instant.ts';
import { at, handClock, newPath } from '../../events/a-book.ts';
import { PENICILLIN, SET_UP } from '../alder-bank.ts';

export { PENICILLIN, SET_UP };

export const BATCH = 'application/cloudevents-batch+json';
export const START = at('2026-03-14T12:00:00Z');

export const tell = (book: Book, now: Instant, entries: readonly Record<string, unknown>[]) =>
  book.record(entries.map((entry) => readValue(entry, { source: 'office', author: 'Marta', now })));

/** Set-up, one medicine, and cows 101 to 106 in milk on no hold. */
export const farmEntries = (): Record<string, unknown>[] => {
  const time = '2026-02-01T12:00:00Z';
  return [
    { type: 'farm-set-up', time, id: 'set-up', data: SET_UP },
    {
      type: 'medicine-listed',
      time,
      id: 'penicillin',
      data: { name: PENICILLIN, milkHold: { hours: 60 }, meatDays: 3 },
    },
    ...['101', '102', '103', '104', '105', '106'].map((subject) => ({
      type: 'cow-entered',
      time,
      subject,
      id: `cow-${subject}`,
      data: { group: 'Milkers', lactation: 2, calvedOn: '2025-12-01', milkHoldUntil: 'none', meatHoldUntil: 'none' },
    })),
  ];
};

export interface AServer {
  readonly book: Book;
  readonly url: string;
  readonly serving: Serving;
  readonly clock: Clock & { set: (instant: Instant) => void };
  readonly tokens: Readonly<Record<Role, string>>;
  readonly ask: (path: string, options?: AskOptions) => Promise<Response>;
  readonly push: (entries: unknown, options?: AskOptions) => Promise<z.infer<typeof receiptsSchema>>;
}

export interface AskOptions {
  readonly as?: Role | string | null;
  readonly method?: string;
  readonly body?: string | Uint8Array;
  readonly headers?: Record<string, string>;
}

/** Stops and closes with the test. */
export const aServer = async (more: Partial<ListenSettings> = {}, farm = farmEntries()): Promise<AServer> => {
  const clock = handClock(START);
  const book = openBook(newPath(), { clock, create: true });
  tell(book, START, farm);
  return serveBook(book, clock, more);
};

export const serveBook = async (
  book: Book,
  clock: AServer['clock'],
  more: Partial<ListenSettings> = {},
): Promise<AServer> => {
  const made = ROLES.map((role) => [role, book.devices.add(`the ${role}`, role).token] as const);
  const tokens = z.record(z.enum(ROLES), z.string()).parse(Object.fromEntries(made));
  const serving = await startServing({ book, log: pino({ level: 'silent' }), port: 0, ...more });
  onTestFinished(async () => {
    await serving.stop();
    book.close();
  });
  const ask: AServer['ask'] = (path, { as = 'manager', method = 'GET', body, headers = {} } = {}) => {
    const token =
      as === null ? undefined : (ROLES.map((role) => [role, tokens[role]]).find(([role]) => role === as)?.[1] ?? as);
    return fetch(`${serving.url}${path}`, {
      method,
      headers: { ...(token === undefined ? {} : { authorization: `Bearer ${token}` }), ...headers },
      ...(body === undefined ? {} : { body: typeof body === 'string' ? body : Buffer.from(body) }),
    });
  };
  const push: AServer['push'] = async (entries, options = {}) => {
    const answer = await ask('/sync/push', {
      method: 'POST',
      body: JSON.stringify(entries),
      ...options,
      headers: { 'content-type': BATCH, ...options.headers },
    });
    if (answer.status !== 200) throw new Error(`${answer.status} ${await answer.text()}`);
    return receiptsSchema.parse(await answer.json());
  };
  return { book, url: serving.url, serving, clock, tokens, ask, push };
};

export const problemOf = async (answer: Response) => {
  const body = z
    .looseObject({ type: z.string(), detail: z.string(), status: z.number(), requestId: z.string() })
    .parse(await answer.json());
  return { ...body, contentType: answer.headers.get('content-type') };
};

/** A request with headers that `fetch` would not send. */
export const rawAsk = (
  url: string,
  options: { path: string; method?: string; headers?: Record<string, string | string[]>; body?: string },
): Promise<{ status: number; headers: http.IncomingHttpHeaders; body: string }> =>
  new Promise((resolve, reject) => {
    const { hostname, port } = new URL(url);
    const { path, method = 'GET', headers = {}, body } = options;
    const request = http.request(
      { hostname, port, path, method, headers, setHost: headers.host === undefined },
      (answer) => {
        let text = '';
        answer.setEncoding('utf8');
        answer.on('data', (piece: string) => {
          text += piece;
        });
        answer.on('end', () => resolve({ status: answer.statusCode ?? 0, headers: answer.headers, body: text }));
        answer.on('error', reject);
      },
    );
    request.on('error', reject);
    request.end(body);
  });

/** A dose of penicillin as a device says it. */
export const doseOf = (cow: string, id?: string, time = '2026-03-14T11:00:00Z'): Record<string, unknown> => ({
  type: 'treatment',
  subject: cow,
  time,
  author: 'Ola',
  data: { medicine: PENICILLIN },
  ...(id === undefined ? {} : { id }),
});
