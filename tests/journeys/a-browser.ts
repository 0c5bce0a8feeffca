/** A real Chromium in front of the desk, and the demo farm or an empty book behind it. */
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pino } from 'pino';
import { type Browser, type BrowserContext, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { makeDemoBook } from '../../api/demo.ts';
import { type Serving, startServing } from '../../api/server/listen.ts';
import { type Book, openBook } from '../../events/book.ts';
import { type Clock, systemClock } from '../../shared/clock.ts';

/** Where Debian's package puts it. */
const CHROMIUM = '/usr/bin/chromium';
/** No look-ups of the browser's own while it runs. */
const QUIET = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export interface Served {
  readonly book: Book;
  readonly url: string;
  /** An address that signs a browser in, once. */
  readonly signIn: () => string;
  readonly stop: () => Promise<void>;
}

const serve = async (file: string, clock: Clock): Promise<Served> => {
  const book = openBook(file, { clock, create: true });
  const { device } = book.devices.add('office', 'manager');
  const serving: Serving = await startServing({ book, log: pino({ level: 'silent' }), port: 0 });
  return {
    book,
    url: serving.url,
    signIn: () => serving.url + serving.app.deskPathFor(device.id),
    stop: async () => {
      await serving.stop();
      book.close();
    },
  };
};

const inNewFolder = (name: string): string => path.join(fs.mkdtempSync(path.join(os.tmpdir(), 'byrebook-')), name);

export const servedDemo = async (): Promise<Served> => {
  const file = inNewFolder('demo.book');
  await makeDemoBook(file);
  return serve(file, systemClock);
};

/** A book with nothing in it. */
export const servedEmpty = (clock: Clock): Promise<Served> => serve(inNewFolder('new.book'), clock);

export const aChromium = (): Promise<Browser> => chromium.launch({ executablePath: CHROMIUM, args: QUIET });

/** A person at the desk; scripts are off unless asked for, since every task must do without. */
export const atDesk = async (
  browser: Browser,
  served: Served,
  options: BrowserContextOptions & { person?: string } = {},
): Promise<{ context: BrowserContext; page: Page }> => {
  const { person = 'Marta', ...rest } = options;
  const context = await browser.newContext({
    javaScriptEnabled: false,
    viewport: { width: 1200, height: 900 },
    ...rest,
  });
  const page = await context.newPage();
  await page.goto(served.signIn());
  await page.getByLabel('Your name').fill(person);
  await page.getByRole('button', { name: 'Sign in' }).click();
  return { context, page };
};
