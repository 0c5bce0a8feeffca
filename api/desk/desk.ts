/**
 * The desk: pages for the office, rendered on the server, from the same book and the same views as the paper. Every page
 * works without a script. Signing in gives a session; every writing form bears a mark of it.
 */
import crypto from 'node:crypto';
import { Hono } from 'hono';
import { getCookie } from 'hono/cookie';
import type { Logger } from 'pino';
import { LANGUAGES } from '../../print/words.ts';
import { steadyMilliseconds } from '../../shared/clock.ts';
import type { Instant } from '../../shared/instant.ts';
import { isRole, mayAsk } from '../devices/roles.ts';
import type { Callers } from '../server/callers.ts';
import { asProblem } from '../server/problem.ts';
import type { Caller } from '../server/route.ts';
import { type Desk, formOf, NO_FORM, type Visitor } from './ask.ts';
import { type Codes, codesOf } from './codes.ts';
import { deskFiles } from './files.ts';
import { hearer, speakTo } from './hearer.ts';
import { languageCookie, tagFor } from './language.tsx';
import { goTo } from './layout.tsx';
import { DESK_PAGES } from './pages.ts';
import { problemPage } from './problem-page.tsx';
import { SaidProblem, say } from './say.tsx';
import { COOKIE, LASTS, type Session, type Sessions, sessionsOf } from './session.ts';
import { signInPage, signInProblem } from './sign-in.tsx';

export interface DeskSettings extends Desk {
  readonly log: Logger;
  readonly callers: Callers;
  /** Throws where the request is not from a page of ours. */
  readonly checkReach: (request: Request) => void;
  readonly addressOf: (request: Request, env: unknown) => string;
}

export interface DeskApp {
  readonly app: Hono<Variables>;
  readonly codes: Codes;
  /** A page for an address at which there is nothing. */
  readonly nowhere: (request: Request, requestId: string) => Promise<Response>;
}

interface Variables {
  readonly Variables: { requestId: string };
}

/** A machine at a gate and another book have no eyes. */
const SEES = new Set(['manager', 'crew', 'record-keeper']);

export const deskOf = (settings: DeskSettings): DeskApp => {
  const { book, log, callers, checkReach, addressOf, now } = settings;
  const sessions = sessionsOf(book.secretFor('desk sessions') ?? crypto.randomBytes(32));
  const codes = codesOf(steadyMilliseconds);
  const app = new Hono<Variables>({ strict: true });

  const guarded = (request: Request, requestId: string, work: () => Response | Promise<Response>) => {
    const url = new URL(request.url);
    const page = request.method === 'GET' ? url.pathname + url.search : undefined;
    return speakTo({ tag: tagFor(settings, request), page }, async () => {
      try {
        checkReach(request);
        return await work();
      } catch (thrown) {
        const problem = asProblem(thrown);
        if (problem.problem === 'went-wrong') log.error({ err: thrown, requestId }, problem.message);
        else log.info({ requestId, problem: problem.problem }, problem.message);
        return problemPage(problem, requestId);
      }
    });
  };

  deskFiles(app);

  app.get('/sign-in', (c) =>
    guarded(c.req.raw, c.get('requestId'), () => {
      const { code, to, person } = c.req.query();
      const problem =
        code === undefined || codes.isGood(code)
          ? {}
          : {
              problem: say(
                'That address was used already, or is older than ten minutes; start again, or sign in with a token',
              ),
            };
      return signInPage({
        to: within(to),
        person: nameIn(person),
        code: code !== undefined && codes.isGood(code) ? code : undefined,
        ...problem,
      });
    }),
  );
  app.post('/sign-in', (c) =>
    guarded(c.req.raw, c.get('requestId'), async () => {
      const form = await formOf(c.req.raw, () => undefined);
      const to = within(form.one('to'));
      const person = nameIn(form.one('person'));
      const code = form.one('code');
      try {
        if (person === '') throw new SaidProblem('not-valid', 'Say your name: it stands behind what you write down');
        const device = code === undefined ? undefined : callerOf(settings, codes.take(code) ?? '');
        const caller = device ?? callers.caller(form.one('token'), addressOf(c.req.raw, c.env), 'sheets');
        if (!SEES.has(caller.role))
          throw new SaidProblem('not-allowed', 'A device of the role {role} has no desk; sign in with another', {
            role: caller.role,
          });
        const session: Session = { device: caller.id, person, until: (now() + LASTS) as Instant };
        log.info({ device: caller.name, person }, 'signed in');
        const response = goTo(to);
        response.headers.set('set-cookie', cookieText(sessions.cookieOf(session), LASTS, c.req.raw));
        return response;
      } catch (thrown) {
        const problem = asProblem(thrown);
        if (problem.problem === 'went-wrong') throw thrown;
        const status = problem.problem === 'locked-out' || problem.problem === 'too-often' ? 429 : 400;
        const again = (): Promise<Response> => signInPage({ problem: signInProblem(problem), person, to }, status);
        // The name comes along, and a token is typed again anyway: so the language may be chosen here.
        return speakTo({ ...hearer(), page: `/sign-in?${new URLSearchParams({ to, person })}` }, again);
      }
    }),
  );
  app.post('/language', (c) =>
    guarded(c.req.raw, c.get('requestId'), async () => {
      const form = await formOf(c.req.raw, () => undefined);
      const asked = form.one('language') ?? '';
      const language = LANGUAGES.find((each) => each === asked);
      if (language === undefined)
        throw new SaidProblem(
          'not-valid',
          '“{language}” is not a language that is spoken here; choose one at the foot of a page',
          { language: asked.slice(0, 40) },
        );
      const response = goTo(within(form.one('to')));
      response.headers.set('set-cookie', languageCookie(language, secureFor(c.req.raw)));
      return response;
    }),
  );
  app.post('/sign-out', (c) =>
    guarded(c.req.raw, c.get('requestId'), () => {
      const response = goTo('/sign-in');
      response.headers.set('set-cookie', cookieText('', 0, c.req.raw));
      return response;
    }),
  );

  for (const each of DESK_PAGES) {
    app.on(each.method.toUpperCase(), each.path, (c) =>
      guarded(c.req.raw, c.get('requestId'), async () => {
        const url = new URL(c.req.url);
        const session = sessions.read(getCookie(c, COOKIE), now());
        const caller = session === undefined ? undefined : callerOf(settings, session.device);
        if (session === undefined || caller === undefined) {
          if (each.method === 'get') return goTo(`/sign-in?to=${encodeURIComponent(url.pathname + url.search)}`);
          throw new SaidProblem(
            'not-signed-in',
            'You are not signed in any more, so nothing was saved. Sign in in another window, then go back here and save again',
          );
        }
        if (!mayAsk(caller.role, each.right))
          throw new SaidProblem('not-allowed', 'A device of the role {role} may not do that', { role: caller.role });
        const form =
          each.method === 'get'
            ? NO_FORM
            : await formOf(c.req.raw, (once) => sessions.readOnce(session, once), each.mostBytes);
        const about = log.child({ requestId: c.get('requestId'), device: caller.name });
        return each.run(settings, {
          visitor: visitorOf(sessions, session, caller),
          url,
          params: c.req.param(),
          form,
          log: about,
        });
      }),
    );
  }
  const nowhere: DeskApp['nowhere'] = async (request, requestId) =>
    guarded(request, requestId, () => {
      throw new SaidProblem('not-found', 'There is nothing at that address');
    });
  return { app, codes, nowhere };
};

const visitorOf = (sessions: Sessions, session: Session, caller: Caller): Visitor => ({
  caller,
  person: session.person,
  once: () => sessions.onceFor(session),
});

const callerOf = ({ book }: Desk, device: string): Caller | undefined => {
  const found = book.devices.list().find((each) => each.id === device && each.revoked === null);
  return found !== undefined && isRole(found.role) ? { ...found, role: found.role } : undefined;
};

/** A person's name as typed, in one line. */
const nameIn = (typed = ''): string =>
  typed
    .replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu, ' ')
    .slice(0, 80)
    .trim();

/** Only to a page of ours. */
const within = (to: string | undefined): string => (to !== undefined && /^\/(?![/\\])/.test(to) ? to : '/');

const cookieText = (value: string, lasts: number, request: Request): string =>
  `${COOKIE}=${value}; Path=/; HttpOnly; SameSite=Strict; Max-Age=${Math.floor(lasts / 1_000)}${secureFor(request)}`;

const secureFor = (request: Request): string => (new URL(request.url).protocol === 'https:' ? '; Secure' : '');
