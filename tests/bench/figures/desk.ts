/** How long the server takes for a page of the desk, beside a bare Hono page of the same size on the same kind of socket. */
import { serve } from '@hono/node-server';
import { Hono } from 'hono';
import { pino } from 'pino';
import { startServing } from '../../../api/server/listen.ts';
import { openBook } from '../../../events/book.ts';
import { type Figure, median, millisecondsOf, timeFigure } from '../measure.ts';
import { herdBook, type Setting } from '../setting.ts';

/** Every place of the desk, and the forms that are used most; `COW` stands for a cow's number. */
const PAGES = [
  '/',
  '/write',
  '/write/treatment?cow=COW',
  '/paper',
  '/herd',
  '/cow/COW',
  '/open',
  '/medicines',
  '/farm',
  '/records',
];
const ASKED = 9;

export const deskFigure = async (setting: Setting): Promise<Figure[]> => {
  const herd = herdBook(setting, setting.desk);
  const book = openBook(herd.file, { clock: { now: () => herd.lastRecorded, fixed: true } });
  const { token } = book.devices.add(`desk bench ${Date.now()}`, 'manager');
  const serving = await startServing({ book, log: pino({ level: 'silent' }), port: 0 });
  const cookie = await signedIn(serving.url, token);
  const cow = book.read().entries.findLast((entry) => entry.type === 'milk-record')?.subject ?? '1';
  const figures: Figure[] = [];
  for (const page of PAGES) {
    const address = `${serving.url}${page.replace('COW', cow)}`;
    const ask = async (url: string): Promise<string> => {
      const answer = await fetch(url, { headers: { cookie, accept: 'text/html' }, redirect: 'manual' });
      const text = await answer.text();
      if (answer.status !== 200) throw new Error(`${page} was answered with ${answer.status}`);
      return text;
    };
    const first = await millisecondsOf(() => ask(address));
    const text = await ask(address);
    const bare = await barePage(text);
    const [ours, theirs]: [number[], number[]] = [[], []];
    for (let time = 0; time < ASKED; time += 1) {
      ours.push(await millisecondsOf(() => ask(address)));
      theirs.push(await millisecondsOf(() => ask(bare.url)));
    }
    bare.stop();
    figures.push(
      timeFigure(
        {
          figure: `desk page ${page.replace('COW', '…')}`,
          on: `${herd.on}; ${Math.round(text.length / 1_024)} KB`,
          against: 'a bare Hono page of the same bytes',
          note: page === '/' ? `the first request of all took ${Math.round(first)} ms: it reads the log` : '',
        },
        { product: median(ours), baseline: median(theirs) },
      ),
    );
  }
  await serving.stop();
  book.close();
  return figures;
};

/** The cookie of a browser that signed in with a device's token. */
export const signedIn = async (url: string, token: string): Promise<string> => {
  const answer = await fetch(`${url}/sign-in`, {
    method: 'POST',
    redirect: 'manual',
    headers: { origin: url, 'content-type': 'application/x-www-form-urlencoded' },
    body: new URLSearchParams({ token, person: 'Bench', to: '/' }),
  });
  const cookie = answer.headers.get('set-cookie')?.split(';')[0];
  if (cookie === undefined) throw new Error(`signing in was answered with ${answer.status}`);
  return cookie;
};

const barePage = (text: string): Promise<{ url: string; stop: () => void }> =>
  new Promise((resolve) => {
    const app = new Hono().get('/', (c) => c.html(text));
    const server = serve({ fetch: app.fetch, port: 0, hostname: '127.0.0.1' }, ({ port }) =>
      resolve({ url: `http://127.0.0.1:${port}/`, stop: () => server.close() }),
    );
  });
