/** The desk's pictures for the README: the first page, and what is read before a treatment is saved. Kept where BYREBOOK_PICTURES says. */
import path from 'node:path';
import process from 'node:process';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { aChromium, atDesk, type Served, servedDemo } from './a-browser.ts';

const folder = process.env.BYREBOOK_PICTURES;

let served: Served;
let browser: Browser;
beforeAll(async () => {
  [served, browser] = await Promise.all([servedDemo(), aChromium()]);
});
afterAll(async () => {
  await browser.close();
  await served.stop();
});

test('the first page and a treatment before it is saved are drawn, and are no empty pages', async () => {
  const { page, context } = await atDesk(browser, served, { viewport: { width: 1100, height: 860 } });
  const draw = async (name: string): Promise<void> => {
    const bytes = await page.screenshot(folder === undefined ? {} : { path: path.join(folder, `${name}.png`) });
    // A page of one colour is a few kilobytes.
    expect(bytes.length).toBeGreaterThan(20_000);
  };
  await page.goto(served.url);
  await draw('next-milking');
  await page.goto(`${served.url}/write/treatment?cow=318&medicine=Penicillin+G+procaine,+udder&inCourse=single`);
  await page.getByRole('button', { name: 'Check' }).click();
  await page.getByRole('button', { name: 'Save' }).waitFor();
  await draw('before-saving');
  await context.close();
});
