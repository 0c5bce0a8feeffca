// Draws the README's pictures again: the demo farm's sheets, printed and turned into PNG by Poppler's pdftoppm.
// Run with `npm run pictures`; needs Debian's poppler-utils (or another pdftoppm on the path).
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const here = path.dirname(fileURLToPath(import.meta.url));
const command = path.resolve(here, '../../api/byrebook.mjs');
const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'byrebook-pictures-'));
const book = path.join(folder, 'demo.book');

execFileSync(process.execPath, [command, '--book', book, 'demo', '--out', folder], { stdio: 'ignore' });
for (const [sheet, page, name] of [
  ['milk-hold', 2, 'milk-hold'],
  ['sort', 1, 'sort'],
]) {
  const pdf = path.join(folder, `2026-03-31-afternoon-${sheet}.pdf`);
  const pages = ['-f', String(page), '-l', String(page), '-singlefile'];
  execFileSync('pdftoppm', ['-r', '72', '-gray', '-png', ...pages, pdf, path.join(here, name)]);
}
fs.rmSync(folder, { recursive: true });
