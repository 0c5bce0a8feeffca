/** From nothing to the first sheets, in a real browser without scripts: a farm, a medicine, a herd list from a file, the wall. */
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { fixedClock } from '../../shared/clock.ts';
import { mustBeInstant } from '../../shared/instant.ts';
import { aChromium, atDesk, type Served, servedEmpty } from './a-browser.ts';

const LIST = `Cow,Pen,Lact,Calved,Milk hold until,Meat hold until
101,Milkers,2,2026-01-05,none,none
102,Milkers,1,2026-02-01,2026-03-15,2026-03-20
103,Milkers,x,2026-01-05,none,none
104,Dry,3,,none,none
`;

let served: Served;
let browser: Browser;
beforeAll(async () => {
  served = await servedEmpty(fixedClock(mustBeInstant('2026-03-14T12:00:00Z')));
  browser = await aChromium();
});
afterAll(async () => {
  await browser.close();
  await served.stop();
});

test('a farm is set up from nothing and its first sheets are issued', async () => {
  const { page, context } = await atDesk(browser, served);
  await page.getByRole('heading', { level: 1 }).waitFor();
  expect(page.url()).toContain('/begin');
  const fill = async (fields: Record<string, string>) => {
    for (const [name, value] of Object.entries(fields)) await page.locator(`[name="${name}"]`).fill(value);
  };
  await fill({
    name: 'Windmill Dairy',
    timeZone: 'Europe/Dublin',
    'milking-0-start': '05:00',
    'milking-1-start': '16:30',
    stalls: '24',
    turnMinutes: '12',
    freshMilkings: '8',
  });
  await page
    .locator('form[action="/begin"] button[value="save"], form[action="/begin"] button[type="submit"]')
    .last()
    .click();
  await page.waitForURL('**/begin/medicines');
  await page.locator('[name="medicine-0-here"]').check();
  await fill({ 'medicine-0-milkHours': '60', 'medicine-0-meatDays': '3' });
  await page.locator('select[name="medicine-0-meat"]').selectOption('days');
  await page.locator('form[action="/begin/medicines"] button[type="submit"]').last().click();
  await page.waitForURL('**/begin/herd');

  const file = path.join(fs.mkdtempSync(path.join(os.tmpdir(), 'byrebook-')), 'herd.csv');
  fs.writeFileSync(file, LIST);
  await page.locator('input[type="file"]').setInputFiles(file);
  await page.locator('button[value="look"]').last().click();
  await page.getByText('3 cows can be saved').waitFor();
  // Line 4 has no lactation that can be read: it is refused by its line, the others are not lost for it.
  await page.getByText('"x" is not a lactation').waitFor();
  await page.locator('button[value="save"]').last().click();
  await page.waitForURL('**/begin');
  expect(served.book.read().entries.filter(({ type }) => type === 'cow-entered')).toHaveLength(3);

  await page.goto(served.url);
  expect(await page.locator('.hold').textContent()).toContain('102');
  await page.getByRole('button', { name: /Issue the sheets/ }).click();
  await page.getByRole('heading', { name: /^Sheets/ }).waitFor();
  const href = await page.getByRole('link', { name: 'Milk hold' }).getAttribute('href');
  const paper = await context.request.get(served.url + href);
  expect((await paper.body()).subarray(0, 5).toString()).toBe('%PDF-');
  await context.close();
});
