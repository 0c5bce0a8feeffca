/** The frame of every page of the desk: what it is called, the way to the others, who is signed in, the cautions. */
import type { Child } from 'hono/jsx';
import { mayAsk } from '../devices/roles.ts';
import type { Visitor } from './ask.ts';
import { spokenNow } from './hearer.ts';
import { LanguageChoice } from './language.tsx';
import { say } from './say.tsx';

export interface Frame {
  readonly title: string;
  /** Absent on pages before signing in. */
  readonly visitor?: Visitor;
  /** Path of the place in the menu that this page belongs to. */
  readonly at?: string;
  /** How many alerts and doubts stand open, for the menu. */
  readonly open?: number;
  readonly farm?: string | undefined;
  readonly children?: Child;
}

const PLACES = [
  ['/', 'Milking', 'sheets'],
  ['/write', 'Write down', 'push'],
  ['/paper', 'From paper', 'push'],
  ['/herd', 'Herd', 'herd'],
  ['/open', 'To settle', 'herd'],
  ['/medicines', 'Medicines', 'herd'],
  ['/farm', 'Farm', 'herd'],
  ['/records', 'Records', 'log'],
] as const;

const Page = ({ title, visitor, at, open = 0, farm, children }: Frame) => (
  <html lang={spokenNow()}>
    <head>
      <meta charset="utf-8" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta name="color-scheme" content="light dark" />
      <title>{farm === undefined ? title : `${title} · ${farm}`}</title>
      <link rel="stylesheet" href="/desk/desk.css" />
    </head>
    <body>
      <a class="skip" href="#page">
        {say('Skip to the page')}
      </a>
      <header class="top">
        <p class="farm">{farm ?? 'Byrebook'}</p>
        {visitor === undefined ? null : (
          <nav aria-label={say('Places')}>
            <ul>
              {PLACES.filter(([, , right]) => mayAsk(visitor.caller.role, right)).map(([path, name]) => (
                <li>
                  <a href={path} aria-current={path === at ? 'page' : undefined}>
                    {say(name)}
                    {path === '/open' && open > 0 ? <span class="tally"> {open}</span> : null}
                  </a>
                </li>
              ))}
            </ul>
          </nav>
        )}
        {visitor === undefined ? null : (
          <form class="leave" method="post" action="/sign-out">
            <span>
              {visitor.person} · {visitor.caller.name}
            </span>
            <button class="quiet" type="submit">
              {say('Sign out')}
            </button>
          </form>
        )}
      </header>
      <main id="page" tabindex={-1}>
        <h1>{title}</h1>
        {children}
      </main>
      <footer>
        <p>
          {say(
            'Follow the label and the veterinarian; local rules and licensed practice decide. When unsure, keep the milk out of the tank and ask.',
          )}
        </p>
        <LanguageChoice />
      </footer>
    </body>
  </html>
);

/** Pages with much to fill in: a browser may keep them, so that going back finds what was typed. Lists are always fetched anew. */
const KEPT = new Set(['/write', '/paper', '/farm', '/medicines', '/begin']);

/** The page as an answer. */
export const page = async (frame: Frame, status = 200, headers: Record<string, string> = {}): Promise<Response> =>
  new Response(`<!doctype html>${String(await (<Page {...frame} />))}`, {
    status,
    headers: {
      'content-type': 'text/html; charset=utf-8',
      'cache-control': KEPT.has(frame.at ?? '') ? 'private, no-cache' : 'no-store',
      ...headers,
    },
  });

/** After something was done: a reload of the page that follows does nothing twice. */
export const goTo = (path: string): Response => new Response(null, { status: 303, headers: { location: path } });
