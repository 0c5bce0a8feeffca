/** The desk as a browser without scripts sees it: a real farm, a person signed in, pages parsed, forms sent as they stand. */
import { parseHTML } from 'linkedom';
import type { Role } from '../../../api/devices/roles.ts';
import { openBook } from '../../../events/book.ts';
import { handClock, newPath } from '../../events/a-book.ts';
import { type AServer, aServer, farmEntries, START, serveBook, tell } from '../server/a-server.ts';

type Fields = Readonly<Record<string, string | readonly string[] | null>>;
type Dom = ReturnType<typeof parseHTML>['document'];

export interface Seen {
  readonly status: number;
  /** After the redirects that were followed. */
  readonly path: string;
  readonly html: string;
  /** What a person reads in the page's main part, spaces drawn together. */
  readonly text: string;
  readonly document: Dom;
  readonly response: Response;
}

export interface Browser {
  readonly get: (path: string) => Promise<Seen>;
  /** Posts just these fields. */
  readonly post: (path: string, fields: Fields) => Promise<Seen>;
  /**
   * Fills in a form of a page and sends it: what stands in it, with these fields changed (null leaves one out).
   * `action`: which form, where the page has several (neither `/sign-out` nor `/language` is meant without it).
   */
  readonly send: (page: Seen, fields: Fields, action?: string) => Promise<Seen>;
}

export interface ADesk extends Browser {
  readonly server: AServer;
  readonly book: AServer['book'];
  readonly clock: AServer['clock'];
  readonly as: (role: Role, person?: string) => Promise<Browser>;
}

/** Six cows in milk on no hold (`farmEntries`), the clock at 14 March 2026, noon UTC, Marta signed in as manager. */
export const aDesk = async (farm: Record<string, unknown>[] | null = farmEntries()): Promise<ADesk> => {
  let server: AServer;
  if (farm === null) {
    const clock = handClock(START);
    server = await serveBook(openBook(newPath(), { clock, create: true }), clock);
  } else server = await aServer({}, farm);
  const as: ADesk['as'] = (role, person = 'Marta') => signedIn(server, role, person);
  return { ...(await as('manager')), server, book: server.book, clock: server.clock, as };
};

/** Says more in the book, as another device would. */
export const tellBook = (desk: ADesk, entries: readonly Record<string, unknown>[]) =>
  tell(desk.book, desk.clock.now(), entries);

const signedIn = async (server: AServer, role: Role, person: string): Promise<Browser> => {
  const browser = browserOf(server);
  const page = await browser.post('/sign-in', { person, token: server.tokens[role], to: '/herd' });
  if (page.path === '/sign-in') throw new Error(`not signed in: ${page.text}`);
  return browser;
};

/** A browser that is not signed in yet. */
export const browserOf = (server: AServer): Browser => {
  const cookies = new Map<string, string>();
  const ask = async (path: string, init: RequestInit = {}): Promise<Seen> => {
    let to = path;
    let how: RequestInit = init;
    for (let hops = 0; hops < 5; hops += 1) {
      const cookie = [...cookies].map(([name, value]) => `${name}=${value}`).join('; ');
      const response = await fetch(`${server.url}${to}`, {
        ...how,
        redirect: 'manual',
        headers: { accept: 'text/html,*/*;q=0.8', ...(cookie === '' ? {} : { cookie }), ...how.headers },
      });
      for (const set of response.headers.getSetCookie()) {
        const [, name = '', value = ''] = /^([^=]+)=([^;]*)/.exec(set) ?? [];
        if (value === '') cookies.delete(name);
        else cookies.set(name, value);
      }
      const location = response.headers.get('location');
      if (location === null) return seen(to, response);
      await response.arrayBuffer();
      to = location;
      how = {};
    }
    throw new Error(`${path} sends on without end`);
  };
  const post: Browser['post'] = (path, fields) => {
    const body = new URLSearchParams();
    for (const [name, value] of Object.entries(fields)) {
      for (const each of typeof value === 'string' ? [value] : (value ?? [])) body.append(name, each);
    }
    return ask(path, {
      method: 'POST',
      body: body.toString(),
      headers: { 'content-type': 'application/x-www-form-urlencoded', origin: server.url },
    });
  };
  const send: Browser['send'] = (page, fields, action) => {
    const form = [...page.document.querySelectorAll('form')].find((each) => {
      const to = each.getAttribute('action') ?? page.path;
      return action === undefined ? to !== '/sign-out' && to !== '/language' : to === action;
    });
    if (form === undefined) throw new Error(`there is no form ${action ?? ''} on ${page.path}: ${page.text}`);
    const all: Record<string, string | readonly string[] | null> = { ...standing(form), ...fields };
    const to = form.getAttribute('action') ?? page.path;
    if ((form.getAttribute('method') ?? 'get').toLowerCase() === 'post') return post(to, all);
    const query = new URLSearchParams();
    for (const [name, value] of Object.entries(all))
      for (const each of typeof value === 'string' ? [value] : (value ?? [])) query.append(name, each);
    return ask(`${to}?${query}`);
  };
  return { get: (path) => ask(path), post, send };
};

const seen = async (path: string, response: Response): Promise<Seen> => {
  const html = (response.headers.get('content-type') ?? '').includes('pdf') ? '' : await response.clone().text();
  const { document } = parseHTML(html === '' ? '<html></html>' : html);
  const text = (document.querySelector('main')?.textContent ?? html).replace(/\s+/g, ' ').trim();
  return { status: response.status, path, html, text, document, response };
};

/** What a browser would send of a form that nobody touched. */
const standing = (form: Element): Record<string, string[]> => {
  const fields: Record<string, string[]> = {};
  const add = (name: string, value: string): void => {
    fields[name] = [...(fields[name] ?? []), value];
  };
  for (const control of form.querySelectorAll('input, select, textarea')) {
    const name = control.getAttribute('name');
    if (name === null || control.hasAttribute('disabled')) continue;
    const type = control.getAttribute('type') ?? 'text';
    if (control.tagName === 'SELECT') {
      const options = [...control.querySelectorAll('option')];
      const chosen = options.filter((option) => option.hasAttribute('selected'));
      for (const option of chosen.length > 0 ? chosen : options.slice(0, 1))
        add(name, option.getAttribute('value') ?? option.textContent ?? '');
    } else if (control.tagName === 'TEXTAREA') add(name, control.textContent ?? '');
    else if (type === 'checkbox' || type === 'radio') {
      if (control.hasAttribute('checked')) add(name, control.getAttribute('value') ?? 'on');
    } else if (type !== 'submit' && type !== 'file') add(name, control.getAttribute('value') ?? '');
  }
  return fields;
};
