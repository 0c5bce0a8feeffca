/** Every reason is a sentence in every language: nothing unsaid, nothing undefined, the cow and the medicine named. */
import { describe, expect, test } from 'vitest';
import type { CrewKey } from '../../print/words/dictionary.ts';
import { formatFor } from '../../print/words/format.ts';
import { LANGUAGES, sayIn, sayToCrew, wordsFor } from '../../print/words.ts';
import { type Because, because, type SayingKey } from '../../projections/because.ts';
import { mustBeInstant } from '../../shared/instant.ts';
import { mustBe } from '../../shared/refusal.ts';
import { parseZone } from '../../shared/zone.ts';
import { SAYINGS } from './sayings.ts';

const zone = mustBe(parseZone('Europe/Dublin'));
const KEYS = Object.keys(SAYINGS) as SayingKey[];
const reasonOf = (key: SayingKey) => because('R-10', key, SAYINGS[key], []);

/** Values that name something, which a reader must find in the sentence as they were written. */
const NAMES = ['cow', 'number', 'medicine', 'ref', 'tank', 'product'];
/** The sheet, the row or the list it stands in names these already. */
const SAID_BESIDE: readonly string[] = [
  'unplaced.not-in-herd number',
  'unplaced.two-cows number',
  'unplaced.leading-zeros number',
  'unplaced.old-number number',
  'unplaced.dose-struck number',
];

const WITH_LAST_DOSE = KEYS.filter((key) => 'lastDose' in SAYINGS[key]);

describe.each(LANGUAGES)('in %s', (language) => {
  const words = wordsFor(language);

  test.each(KEYS)('%s is a sentence', (key) => {
    const said = sayIn(words, reasonOf(key), { zone });
    expect(said.trim().length).toBeGreaterThan(3);
    expect(said).not.toMatch(/undefined|null|NaN|\[object|\$\{|#/);
    for (const [name, value] of Object.entries(SAYINGS[key])) {
      if (NAMES.includes(name) && !SAID_BESIDE.includes(`${key} ${name}`)) expect(said).toContain(String(value));
    }
  });

  test.each(WITH_LAST_DOSE)('R-17 %s says where the last dose is only planned', (key) => {
    const said = (planned: boolean): string =>
      sayIn(words, { ...reasonOf(key), values: { ...SAYINGS[key], planned } } as Because, { zone });
    expect(said(false)).toBe(sayIn(words, reasonOf(key), { zone }));
    expect(said(true).length).toBeGreaterThan(said(false).length);
  });

  test('R-10 the milkings left are a number unless this one is the last, at 21 and 101 too', () => {
    const format = formatFor(words, { zone });
    const last = words.labels.milkingsLeft(1, format);
    for (let left = 2; left <= 130; left += 1) {
      expect(words.labels.milkingsLeft(left, format)).toMatch(new RegExp(`(^|\\D)${left}(\\D|$)`));
      expect(words.labels.milkingsLeft(left, format)).not.toBe(last);
    }
  });

  test('the crew words of every hold are words, and shorter than the office has', () => {
    const format = formatFor(words, { zone });
    for (const key of (Object.keys(words.crew) as CrewKey[]).filter((each) => each.startsWith('hold.'))) {
      const crew = sayToCrew(words, reasonOf(key), format);
      expect(crew).not.toMatch(/undefined|null|NaN|\[object/);
      // A medicine's name stands in the row already.
      expect(crew.length).toBeLessThanOrEqual(sayIn(words, reasonOf(key), { zone }).length);
    }
  });
});

describe('the arithmetic', () => {
  const said = (hours: number, lastDose: string, ends: string, place = 'Europe/Dublin'): string =>
    sayIn(wordsFor('en'), because('R-11', 'hold.hours', { medicine: 'X', hours, lastDose, planned: false, ends }, []), {
      zone: mustBe(parseZone(place)),
    });

  test('R-11 last dose and hours make the end, in the farm’s own time', () => {
    expect(said(60, '2026-03-14T16:40:00Z', '2026-03-17T04:40:00Z')).toBe(
      'X: last dose Sat 14 Mar 2026 16:40 + 60 h = Tue 17 Mar 2026 04:40',
    );
  });

  test('R-11 where the clocks change in between, the sentence says why the sum looks an hour out', () => {
    expect(said(60, '2026-03-28T07:00:00Z', '2026-03-30T19:00:00Z')).toContain(
      'Mon 30 Mar 2026 20:00 (the clocks change in between)',
    );
  });

  test('R-01 a time that the clocks show twice says which of the two it is', () => {
    const first = said(60, '2026-10-22T12:30:00Z', '2026-10-25T00:30:00Z');
    const second = said(60, '2026-10-22T13:30:00Z', '2026-10-25T01:30:00Z');
    expect(first).toContain('01:30 (UTC+1)');
    expect(second).toContain('01:30 (UTC+0)');
  });

  test('zones far from Greenwich keep their day', () => {
    expect(said(24, '2026-03-14T11:00:00Z', '2026-03-15T11:00:00Z', 'Pacific/Auckland')).toBe(
      'X: last dose Sun 15 Mar 2026 00:00 + 24 h = Mon 16 Mar 2026 00:00',
    );
  });

  test('the year is left out in the milking’s own year alone', () => {
    const reason = because('R-46', 'doubt.past-due', { cow: '9', due: '2025-12-30', days: 9 }, []);
    expect(sayIn(wordsFor('en'), reason, { zone, near: zone.dayOf(mustBeInstant('2026-01-08T05:00:00Z')) })).toContain(
      '30 Dec 2025',
    );
  });
});
