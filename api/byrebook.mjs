#!/usr/bin/env node
// Starts the command line. The sources are TypeScript, read through tsx: nothing is built, so nothing can be stale.
import { register } from 'tsx/esm/api';

register();
await import('./command-line/main.ts');
