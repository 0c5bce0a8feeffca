/**
 * The server without its socket: every route behind the same gate (names, pages of other sites, token, pace), every answer
 * with a request id and the same headers, everything that goes wrong as a problem document. Holds no rule of the trade.
 */
import { Hono } from 'hono';
import { requestId } from 'hono/request-id';
import { secureHeaders } from 'hono/secure-headers';
import type { Logger } from 'pino';
import type { Book } from '../../events/book.ts';
import { steadyMilliseconds } from '../../shared/clock.ts';
import { deskOf } from '../desk/desk.ts';
import { knowingOf } from '../desk/knowing.ts';
import { callersOf, withoutTokens } from './callers.ts';
import { countersOf } from './counters.ts';
import { type Issuing, issuingOf } from './issuing.ts';
import { openApi } from './open-api.ts';
import { readablePage } from './page.ts';
import { asProblem, problemResponse, RequestProblem } from './problem.ts';
import { reachOf } from './reach.ts';
import { json, NONE, type Route, route } from './route.ts';
import { setAsideRoutes } from './set-aside-routes.ts';
import { sheetRoutes } from './sheet-routes.ts';
import { type Streams, streamsOf } from './stream.ts';
import { syncRoutes } from './sync-routes.ts';

export interface AppSettings {
  readonly book: Book;
  readonly log: Logger;
  /** Names the server answers to beside loopback. */
  readonly names?: readonly string[];
  /** The address a request came from. */
  readonly addressOf?: (request: Request, env: unknown) => string;
  /** Print queue for the desk. */
  readonly printer?: string | undefined;
}

export interface App {
  readonly fetch: (request: Request, env?: unknown) => Response | Promise<Response>;
  readonly routes: readonly Route[];
  readonly streams: Streams;
  readonly issuing: Issuing;
  /** A path that signs a browser in at the desk as this device, once and within ten minutes. */
  readonly deskPathFor: (deviceId: string) => string;
}

interface Variables {
  readonly Variables: { requestId: string };
}

export const appOf = ({ book, log, names = [], addressOf = () => 'unknown', printer }: AppSettings): App => {
  const reach = reachOf(names);
  const callers = callersOf(book);
  const counters = countersOf();
  const streams = streamsOf(book);
  const issuing = issuingOf(book);
  const routes: Route[] = [
    ...syncRoutes(book, streams, counters),
    ...setAsideRoutes(book),
    ...sheetRoutes(book, issuing),
    ...ownRoutes(book, () => counters.text({ position: book.head().position, streams: streams.count() })),
  ];
  const document = openApi(routes);
  routes.push(...describing(document));

  const app = new Hono<Variables>({ strict: true });
  app.use(requestId());
  app.use(
    secureHeaders({
      contentSecurityPolicy: {
        defaultSrc: ["'none'"],
        styleSrc: ["'self'"],
        imgSrc: ["'self'"],
        fontSrc: ["'self'"],
        scriptSrc: ["'self'"],
        connectSrc: ["'self'"],
        formAction: ["'self'"],
        frameAncestors: ["'none'"],
        baseUri: ["'none'"],
      },
      xFrameOptions: 'DENY',
      referrerPolicy: 'same-origin',
    }),
  );
  app.use(async (c, next) => {
    const began = steadyMilliseconds();
    await next();
    // Set on the answer itself: `c.header` would make another answer of it, whose text goes out as a stream.
    const { headers } = c.res;
    if (!headers.has('cache-control')) headers.set('cache-control', 'no-store');
    headers.set('x-request-id', c.get('requestId'));
    counters.answered(c.res.status);
    const milliseconds = Math.round(steadyMilliseconds() - began);
    log.info({
      requestId: c.get('requestId'),
      method: c.req.method,
      path: withoutTokens(c.req.path),
      status: c.res.status,
      milliseconds,
    });
  });

  for (const each of routes) {
    app.on([each.method.toUpperCase()], honoPath(each.path), async (c) => {
      const id = c.get('requestId');
      const about = log.child({ requestId: id });
      try {
        reach.check(c.req.raw);
        const token = tokenOf(c.req.raw);
        const caller = each.right === null ? NOBODY : callers.caller(token, addressOf(c.req.raw, c.env), each.right);
        const response = await each.run({
          request: c.req.raw,
          params: paramsOf(each.path, c.req.param()),
          query: queryOf(c.req.url),
          caller,
          requestId: id,
          log: about,
          still: () => token !== undefined && callers.still(token),
        });
        return response;
      } catch (thrown) {
        return failed(thrown, id, log);
      }
    });
  }
  const paths = new Map<string, string[]>();
  for (const { path, method } of routes) paths.set(path, [...(paths.get(path) ?? []), method.toUpperCase()]);
  for (const [path, methods] of paths) {
    app.all(honoPath(path), (c) => {
      const allow = methods.flatMap((method) => (method === 'GET' ? ['GET', 'HEAD'] : [method])).join(', ');
      const problem = new RequestProblem('wrong-method', `${c.req.method} is not done here; use ${allow}`, { allow });
      return problemResponse(problem, c.get('requestId'));
    });
  }
  const desk = deskOf({
    book,
    log,
    issuing,
    printer,
    callers,
    addressOf,
    checkReach: (request) => reach.check(request),
    knowing: knowingOf(book),
    now: () => book.clock.now(),
    recorded: () => streams.wake(),
  });
  app.route('/', desk.app);
  app.notFound((c) => {
    const id = c.get('requestId');
    if (wantsPage(c.req.raw)) return desk.nowhere(c.req.raw, id);
    const problem = new RequestProblem('not-found', 'There is nothing at that address; / lists what there is');
    return problemResponse(problem, id);
  });
  app.onError((error, c) => failed(error, c.get('requestId') ?? '', log));
  const deskPathFor = (device: string): string => `/sign-in?code=${desk.codes.make(device)}`;
  return { fetch: (request, env) => app.fetch(request, env as object), routes, streams, issuing, deskPathFor };
};

const NOBODY = { id: '', name: 'nobody', role: 'machine', made: '', revoked: null } as const;

const failed = (thrown: unknown, requestId: string, log: Logger): Response => {
  const problem = asProblem(thrown);
  const response = problemResponse(problem, requestId);
  if (response.status >= 500) log.error({ err: thrown, requestId }, problem.message);
  else log.info({ requestId, problem: problem.problem }, withoutTokens(problem.message));
  return response;
};

const ownRoutes = (book: Book, metrics: () => string): readonly Route[] => [
  route({
    method: 'get',
    path: '/healthz',
    summary: 'Whether the server can read its book.',
    right: null,
    params: NONE,
    query: NONE,
    answers: { 200: { says: 'It can', type: 'application/json' } },
    run: () => {
      book.head();
      return json({ ok: true });
    },
  }),
  route({
    method: 'get',
    path: '/metrics',
    summary: 'What the server counted since it started.',
    right: 'metrics',
    params: NONE,
    query: NONE,
    answers: { 200: { says: 'Counters in the text form that metrics collectors read', type: 'text/plain' } },
    run: () => new Response(metrics(), { headers: { 'content-type': 'text/plain; version=0.0.4; charset=utf-8' } }),
  }),
];

const describing = (document: ReturnType<typeof openApi>): readonly Route[] => [
  route({
    method: 'get',
    path: '/openapi.json',
    summary: 'This description, as OpenAPI 3.1.',
    right: null,
    params: NONE,
    query: NONE,
    answers: { 200: { says: 'The document', type: 'application/json' } },
    run: () => json(document),
  }),
  route({
    method: 'get',
    path: '/protocol',
    summary: 'The same for people to read.',
    right: null,
    params: NONE,
    query: NONE,
    answers: { 200: { says: 'A page', type: 'text/html' } },
    run: () =>
      new Response(readablePage(document), {
        headers: { 'content-type': 'text/html; charset=utf-8' },
      }),
  }),
];

/** A browser says that it takes a page; programs get the problem document. */
const wantsPage = (request: Request): boolean => (request.headers.get('accept') ?? '').includes('text/html');

const ENDING = /\{(\w+)\}(\.\w+)$/;

/** `/issued/{ref}.pdf` → a pattern of the router, which takes the ending into the parameter. */
const honoPath = (path: string): string =>
  path.replace(ENDING, (_, name, ending) => `:${name}{[^/]+\\${ending}}`).replace(/\{(\w+)\}(?!\\)/g, ':$1');

const paramsOf = (path: string, params: Record<string, string>): Record<string, string> => {
  const [, name, ending] = ENDING.exec(path) ?? [];
  if (name === undefined || ending === undefined) return params;
  return { ...params, [name]: (params[name] ?? '').slice(0, -ending.length) };
};

/** One value a name; one said twice is refused by nobody's guess. */
const queryOf = (url: string): Record<string, string> => {
  const query: Record<string, string> = {};
  if (!url.includes('?')) return query;
  for (const [name, value] of new URL(url).searchParams) {
    if (Object.hasOwn(query, name)) {
      throw new RequestProblem('not-valid', `"${name}" is said twice; say it once`, { parameter: name });
    }
    Object.defineProperty(query, name, { value, enumerable: true });
  }
  return query;
};

const tokenOf = (request: Request): string | undefined =>
  /^Bearer +([0-9A-Za-z_-]{1,200})$/i.exec(request.headers.get('authorization') ?? '')?.[1];
