/** What the manager does at the desk, in a real browser: without scripts, by keyboard alone, on a phone. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
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

const PENICILLIN = 'Penicillin G procaine, udder';
const position = () => served.book.head().position;

describe('without a script', () => {
  test('a treatment is entered, its hold is read before saving, and she stands on the sheet that is issued', async () => {
    const { page, context } = await atDesk(browser, served);
    await page.getByRole('link', { name: 'Write down' }).click();
    await page.getByRole('link', { name: /Treatment given/ }).click();
    await page.getByLabel('Cow, or several').fill('343');
    await page.getByLabel('Medicine').fill(PENICILLIN);
    await page.getByLabel('This dose is').selectOption('a single dose');
    await page.getByLabel('left front').check();
    await page.getByRole('button', { name: 'Check' }).click();
    // Tuesday 13:50 + 60 h is Friday 01:50.
    await page.getByText('last dose Tue 31 Mar 13:50 + 60 h = Fri 3 Apr 01:50').waitFor();
    const before = position();
    await page.getByRole('button', { name: 'Save' }).click();
    await page.getByRole('heading', { name: 'It stands in the book' }).waitFor();
    expect(position()).toBe(before + 1);
    await page.reload();
    // Back to what was read before saving, and saved once more: the same thing said twice.
    await page.goBack();
    await page.getByRole('button', { name: 'Save' }).click();
    await page.getByRole('heading', { name: 'It stands in the book' }).waitFor();
    // Back to the form: what was typed is still there.
    await page.goBack();
    await page.goBack();
    expect(await page.getByLabel('Cow, or several').inputValue()).toBe('343');
    expect(position()).toBe(before + 1);

    await page.goto(served.url);
    expect(await page.getByRole('link', { name: '343 NEW' }).count()).toBe(1);
    await page.getByRole('button', { name: /Issue the sheets/ }).click();
    await page.getByRole('heading', { name: /^Sheets/ }).waitFor();
    const href = await page.getByRole('link', { name: 'Milk hold' }).getAttribute('href');
    const paper = await context.request.get(served.url + href);
    expect((await paper.body()).subarray(0, 5).toString()).toBe('%PDF-');
    const issued = served.book.read().entries.findLast(({ type }) => type === 'sheet-issued');
    expect(JSON.stringify(issued?.data)).toContain('"cow":"343"');
    await context.close();
  });

  test('R-31 late news stands at the top of the first page, and is settled from there', async () => {
    const { page, context } = await atDesk(browser, served);
    const alerts = page.getByRole('region', { name: 'Alerts' });
    const before = await alerts.getByRole('listitem').count();
    expect(before).toBeGreaterThan(0);
    const first = await alerts.getByRole('listitem').first().textContent();
    await alerts.getByRole('link', { name: 'Settle' }).first().click();
    expect(page.url()).toContain('/open#');
    expect(first).toContain('is on hold');
    await context.close();
  });

  test('a cow is found by her number, and her page says why she is on each list', async () => {
    const { page, context } = await atDesk(browser, served);
    await page.getByRole('link', { name: 'Herd' }).click();
    await page.goto(`${served.url}/cow/387`);
    expect(await page.locator('main').textContent()).toContain('R-');
    await context.close();
  });

  test('another language is chosen at the foot of a page, and spoken there and on the next one', async () => {
    const { page, context } = await atDesk(browser, served);
    await page.goto(`${served.url}/herd?find=387`);
    await page.getByRole('button', { name: 'Polski' }).click();
    await page.getByRole('heading', { name: 'Stado', exact: true }).waitFor();
    expect(page.url()).toBe(`${served.url}/herd?find=387`);
    await page.getByRole('link', { name: '387', exact: true }).click();
    await page.getByRole('heading', { name: 'Krowa 387' }).waitFor();
    await page.getByRole('button', { name: 'English' }).click();
    await page.getByRole('heading', { name: 'Cow 387' }).waitFor();
    await context.close();
  });
});

test('by keyboard alone: from the first page to a milk hold that is saved', async () => {
  const { page, context } = await atDesk(browser, served);
  await page.goto(`${served.url}/write/milk-hold`);
  const seen: string[] = [];
  const focused = () => page.locator(':focus');
  const tabTo = async (is: (html: string) => boolean): Promise<void> => {
    for (let count = 0; count < 40; count += 1) {
      await page.keyboard.press('Tab');
      const html = await focused()
        .evaluate((element) => element.outerHTML)
        .catch(() => '');
      seen.push(html.slice(0, 80));
      if (is(html)) return;
    }
    throw new Error(`not reached by Tab: ${seen.join('\n')}`);
  };
  await tabTo((html) => html.includes('name="cow"'));
  await page.keyboard.type('343');
  await tabTo((html) => html.includes('name="reason"'));
  await page.keyboard.type('clots in the milk');
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: /read this, then save/ }).waitFor();
  const before = position();
  await tabTo((html) => html.includes('value="save"'));
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'It stands in the book' }).waitFor();
  expect(position()).toBe(before + 1);
  await context.close();
});

test('on a phone: the first page, a form and a cow are read without scrolling sideways, and buttons are as large as a finger', async () => {
  const { page, context } = await atDesk(browser, served, {
    javaScriptEnabled: true,
    viewport: { width: 360, height: 700 },
    hasTouch: true,
    isMobile: true,
  });
  for (const path of ['/', '/write', '/write/treatment?cow=387', '/cow/387']) {
    await page.goto(served.url + path);
    expect(await page.evaluate(() => document.documentElement.scrollWidth), path).toBeLessThanOrEqual(360);
    const heights = await page
      .locator('main button:visible, main .tiles a:visible')
      .evaluateAll((all) => all.map((each) => each.getBoundingClientRect().height));
    expect(Math.min(...heights, 44), path).toBeGreaterThanOrEqual(44);
  }
  await context.close();
});

test('every page prints: no menu and no button, and the list is there', async () => {
  const { page, context } = await atDesk(browser, served, { javaScriptEnabled: true });
  await page.emulateMedia({ media: 'print' });
  for (const path of ['/', '/herd', '/cow/387', '/open']) {
    await page.goto(served.url + path);
    expect(await page.locator('nav').first().isVisible(), path).toBe(false);
    expect(await page.locator('button:visible').count(), path).toBe(0);
    expect((await page.locator('main').textContent())?.length, path).toBeGreaterThan(100);
  }
  await context.close();
});

test('the pages ask for nothing from anywhere else, and no script', async () => {
  const { page, context } = await atDesk(browser, served, { javaScriptEnabled: true });
  const asked = new Set<string>();
  page.on('request', (request) => asked.add(new URL(request.url()).origin));
  for (const path of ['/', '/herd', '/write', '/open', '/protocol']) {
    await page.goto(served.url + path);
    expect(await page.locator('script').count(), path).toBe(0);
  }
  expect([...asked]).toEqual([served.url]);
  await context.close();
});
