/** What `record --example` prints is what `record` takes, and so is what the README shows. */
import fs from 'node:fs';
import { describe, expect, test } from 'vitest';
import { exampleLine, KINDS_SAID } from '../../api/command-line/example-lines.ts';
import { readLine } from '../../events/door.ts';
import { ENTRY_TYPES, KINDS } from '../../events/kinds.ts';
import { mustBeInstant } from '../../shared/instant.ts';

const DOOR = { source: 'office', author: 'Marta', now: mustBeInstant('2026-03-14T18:00:00Z') };
const WRITTEN = ENTRY_TYPES.filter((type) => !('bookOnly' in KINDS[type]));

describe('lines to begin from', () => {
  test.each(WRITTEN)('%s: its example is one line, and passes the door', (type) => {
    const line = exampleLine(type);
    expect(line).not.toContain('\n');
    expect(readLine(line, DOOR)).toMatchObject({ outcome: 'passed' });
    expect(KINDS_SAID).toContain(KINDS[type].when);
  });

  test.each(['farm', 'sheet-issued', 'constructor'])('%s: what people do not write has none', (type) => {
    expect(() => exampleLine(type)).toThrow('record --kinds lists them');
  });

  test('whole lines in the README pass the door', () => {
    const lines = fs
      .readFileSync('README.md', 'utf8')
      .split('\n')
      .filter((line) => line.startsWith('{"type"'));
    expect(lines.length).toBeGreaterThan(1);
    for (const line of lines) expect(readLine(line, DOOR)).toMatchObject({ outcome: 'passed' });
  });
});
