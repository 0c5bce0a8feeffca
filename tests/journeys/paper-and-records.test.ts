/** The paper comes back from the parlour and is written up; months later the record keeper looks at what stood on it. No scripts. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { aChromium, atDesk, type Served, servedDemo } from './a-browser.ts';

let served: Served;
let browser: Browser;
beforeAll(async () => {
  [served, browser] = await Promise.all([servedDemo(), aChromium()]);
});
afterAll(async () => {
  await browser.close();
  await served.stop();
});

const entries = () => served.book.read().entries;
const refOfThisMorning = (): string => {
  const set = entries().findLast(({ type }) => type === 'sheet-issued');
  return set?.type === 'sheet-issued' ? set.data.ref : '';
};

test('a set that came back is ticked, read over and saved once; what was not ticked is said back', async () => {
  const { page, context } = await atDesk(browser, served);
  await page.getByRole('link', { name: 'From paper' }).click();
  await page.goto(`${served.url}/paper?ref=${refOfThisMorning()}`);
  const before = entries().length;
  await page.getByLabel(/^Who wrote/).fill('Bram');
  await page.getByLabel(/^402 given/).check();
  await page.getByLabel('Line 1: cow').fill('343');
  await page.locator('[name="hand.0.what"]').selectOption({ index: 2 });
  await page.getByLabel('Line 1: which medicine, which group, or why').fill('clots');
  await page.locator('button[value="read"].big').click();
  await page.locator('button[value="save"]').waitFor();
  const over = (await page.locator('main').textContent()) ?? '';
  expect(over).toContain('402');
  expect(over).toContain('343');
  expect(over).toMatch(/not ticked/i);
  expect(entries()).toHaveLength(before);
  await page.locator('button[value="save"]').click();
  await page.locator('button[value="save"]').waitFor({ state: 'detached' });
  const came = entries().slice(before);
  expect(came.map(({ type, subject }) => `${type} ${subject ?? ''}`.trim()).sort()).toEqual([
    'milk-hold 343',
    'sheet-returned',
    'treatment 402',
  ]);
  await page.goto(`${served.url}/paper`);
  expect(await page.locator('main').textContent()).not.toContain(`${refOfThisMorning()} Tue 31 Mar morning`);
  await context.close();
});

test('the record keeper sees a moment beside its paper, verifies the book and takes the register along', async () => {
  const { page, context } = await atDesk(browser, served, { person: 'Ifeoma' });
  await page.getByRole('link', { name: 'Records' }).click();
  await page.locator('[name="ref"]').fill(refOfThisMorning());
  await page.locator('form[action="/records/then"] button[type="submit"]').first().click();
  await page.getByText('every row agrees').first().waitFor();
  const href = await page.getByRole('link', { name: 'Milk hold' }).first().getAttribute('href');
  const paper = await context.request.get(served.url + href);
  expect((await paper.body()).subarray(0, 5).toString()).toBe('%PDF-');

  await page.goto(`${served.url}/records`);
  await page.locator('form[action="/records/verify"] button[type="submit"]').first().click();
  await page.getByText('Everything agrees').waitFor();

  await page.goto(`${served.url}/records`);
  const register = page.locator('form:has([name="from"])').first();
  const action = await register.getAttribute('action');
  const csv = await context.request.get(`${served.url}${action}?from=2026-03-01&to=2026-03-31`);
  expect(csv.status()).toBe(200);
  expect(await csv.text()).toContain('Penicillin G procaine');
  await context.close();
});
