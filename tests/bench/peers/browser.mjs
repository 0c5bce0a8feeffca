/** A headless browser printing the held cows as an HTML table: the browser runs already, a page is opened and printed. */
import process from 'node:process';
import { answer, asked, peer, took } from './asked.mjs';

const { chromium } = peer('playwright-core');
const rows = await asked();
const text = (value) => String(value).replaceAll('&', '&amp;').replaceAll('<', '&lt;');
const html = `<!doctype html><table><thead><tr><th>cow<th>group<th>until<th>tank from</thead>${rows
  .map((row) => `<tr>${row.map((cell) => `<td>${text(cell)}`).join('')}`)
  .join('')}</table>`;
const browser = await chromium.launch({
  executablePath: process.env.BYREBOOK_CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox'],
});
const printed = async () => {
  const page = await browser.newPage();
  await page.setContent(html);
  const { length } = await page.pdf({ format: 'A4' });
  await page.close();
  if (length === 0) throw new Error('nothing was printed');
};
await printed();
const milliseconds = await took(printed);
await browser.close();
answer(milliseconds);
