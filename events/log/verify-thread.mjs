// Starts a verifying thread where the program runs from its sources: a thread knows nothing of the loader of the others.
import { fileURLToPath } from 'node:url';
import { register } from 'tsx/esm/api';

register({ tsconfig: fileURLToPath(new URL('../../tsconfig.json', import.meta.url)) });
await import('./verify-thread.ts');
