/** The style sheet and the type faces of the desk: the same hyperlegible faces that are on paper. */
import fs from 'node:fs';
import { createRequire } from 'node:module';
import type { Hono } from 'hono';

const found = createRequire(import.meta.url);

const FILES: Readonly<Record<string, readonly [path: () => string, type: string]>> = {
  'desk.css': [() => new URL('./desk.css', import.meta.url).pathname, 'text/css; charset=utf-8'],
  'text.ttf': [
    () =>
      found.resolve('@expo-google-fonts/atkinson-hyperlegible-next/400Regular/AtkinsonHyperlegibleNext_400Regular.ttf'),
    'font/ttf',
  ],
  'bold.ttf': [
    () => found.resolve('@expo-google-fonts/atkinson-hyperlegible-next/700Bold/AtkinsonHyperlegibleNext_700Bold.ttf'),
    'font/ttf',
  ],
  'figures.ttf': [
    () => found.resolve('@expo-google-fonts/atkinson-hyperlegible-mono/700Bold/AtkinsonHyperlegibleMono_700Bold.ttf'),
    'font/ttf',
  ],
};

// biome-ignore lint/suspicious/noExplicitAny: any app will do
export const deskFiles = (app: Hono<any>): void => {
  for (const [name, [path, type]] of Object.entries(FILES)) {
    let bytes: Uint8Array<ArrayBuffer> | undefined;
    app.get(`/desk/${name}`, () => {
      bytes ??= Uint8Array.from(fs.readFileSync(path()));
      return new Response(bytes, { headers: { 'content-type': type } });
    });
  }
};
