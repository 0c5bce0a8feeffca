#!/usr/bin/env node
// Starts the command line: the sources made into JavaScript and kept, or, where that can't be kept, read through tsx.
import process from 'node:process';
import { fileURLToPath, pathToFileURL } from 'node:url';
import v8 from 'node:v8';
import { keptProgram } from './kept-program.mjs';

// Memory grows by two fifths before it is cleaned, where it might double: a big book then needs an eighth less, as fast.
v8.setFlagsFromString('--heap-growing-percent=40');

const kept = await keptProgram().catch(() => undefined);
if (kept !== undefined) {
  // Where something went wrong is then told by the lines of the sources; it costs some milliseconds, so only when asked.
  if (process.env.BYREBOOK_TRACE !== undefined) process.setSourceMapsEnabled(true);
  await import(pathToFileURL(kept).href);
} else {
  const { register } = await import('tsx/esm/api');
  // Named, since the program is started from any folder.
  register({ tsconfig: fileURLToPath(new URL('../tsconfig.json', import.meta.url)) });
  await import('./command-line/main.ts');
}
