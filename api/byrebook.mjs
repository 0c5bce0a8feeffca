#!/usr/bin/env node
// Starts the command line. The sources are TypeScript, read through tsx: nothing is built, so nothing can be stale.
import { fileURLToPath } from 'node:url';
import { register } from 'tsx/esm/api';

// Named, since the program is started from any folder.
register({ tsconfig: fileURLToPath(new URL('../tsconfig.json', import.meta.url)) });
await import('./command-line/main.ts');
