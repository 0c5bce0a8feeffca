/** Every page of the desk against WCAG 2.2 AA by axe-core, in light and dark, and at 320 px without sideways scrolling. */
import fs from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { WRITTEN } from '../../api/desk/write/kinds.ts';
import { aChromium, atDesk, type Served, servedDemo } from './a-browser.ts';

const AXE = fs.readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const STANDARD = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

const violations = z.array(
  z.looseObject({
    id: z.string(),
    nodes: z.array(z.looseObject({ html: z.string(), failureSummary: z.string().optional() })),
  }),
);

let served: Served;
let browser: Browser;
beforeAll(async () => {
  [served, browser] = await Promise.all([servedDemo(), aChromium()]);
});
afterAll(async () => {
  await browser.close();
  await served.stop();
});

const paths = [
  '/',
  '/milking/2026-03-31/morning',
  '/write',
  '/write?cow=318',
  ...WRITTEN.map(({ type, about }) => `/write/${type}${about === 'farm' ? '' : '?cow=387'}`),
  '/herd',
  '/cow/387',
  '/cow/630',
  '/cow/99999',
  '/open',
  '/paper',
  '/farm',
  '/medicines',
  '/records',
  '/protocol',
  '/nowhere-at-all',
];

const faults = async (page: Page): Promise<string[]> => {
  await page.evaluate(AXE);
  const found = violations.parse(
    await page.evaluate(
      (tags) =>
        (globalThis as unknown as { axe: { run: (o: unknown) => Promise<{ violations: unknown }> } }).axe
          .run({ runOnly: tags })
          .then((result) => result.violations),
      STANDARD,
    ),
  );
  return found.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html} ${failureSummary ?? ''}`),
  );
};

describe('axe-core finds nothing', () => {
  test.each(['light', 'dark'] as const)('on any page in %s', async (colorScheme) => {
    const { page, context } = await atDesk(browser, served, { javaScriptEnabled: true, bypassCSP: true, colorScheme });
    const found: string[] = [];
    for (const path of paths) {
      await page.goto(served.url + path);
      for (const fault of await faults(page)) found.push(`${path} ${fault}`);
    }
    await context.close();
    expect(found).toEqual([]);
  });

  test('on the sign-in, on a form with troubles, and on what is read before saving', async () => {
    const context = await browser.newContext({ bypassCSP: true });
    const page = await context.newPage();
    await page.goto(`${served.url}/sign-in`);
    expect(await faults(page)).toEqual([]);
    await context.close();
    const desk = await atDesk(browser, served, { javaScriptEnabled: true, bypassCSP: true });
    await desk.page.goto(`${served.url}/write/treatment?cow=318&medicine=Penicillin+G+procaine,+udder&inCourse=first`);
    await desk.page.getByRole('button', { name: 'Check' }).click();
    expect(await faults(desk.page)).toEqual([]);
    await desk.page.getByLabel('This dose is').selectOption('single');
    await desk.page.getByRole('button', { name: 'Check' }).click();
    await desk.page.getByRole('button', { name: 'Save' }).waitFor();
    expect(await faults(desk.page)).toEqual([]);
    await desk.context.close();
  });
});

test.each(['en', 'es', 'fr', 'pl', 'uk'])('in %s no page scrolls sideways on a screen of 320 px', async (language) => {
  const { page, context } = await atDesk(browser, served, {
    javaScriptEnabled: true,
    viewport: { width: 320, height: 640 },
  });
  await page.locator(`footer button[lang=${language}]`).click();
  expect(await page.locator('html').getAttribute('lang')).toBe(language);
  const wide: string[] = [];
  for (const path of paths) {
    await page.goto(served.url + path);
    const width = await page.evaluate(() => document.documentElement.scrollWidth);
    if (width > 320) wide.push(`${path} is ${width} px wide`);
  }
  await context.close();
  expect(wide).toEqual([]);
});
