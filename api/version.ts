/** Which program and which time-zone data made a set of sheets. */
import { readFileSync } from 'node:fs';
import { z } from 'zod';

const manifest = z.looseObject({ version: z.string() });

export const VERSION = manifest.parse(
  JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8')),
).version;
export const PROGRAM = `byrebook ${VERSION}`;
export const TIME_ZONE_DATA = process.versions.tz ?? 'unknown';
