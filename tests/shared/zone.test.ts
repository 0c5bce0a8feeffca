/** Time zones at their edges. The same against an independent library is in tests/published/zones.test.ts. */
import { describe, expect, test } from 'vitest';
import { parseInstant } from '../../shared/instant.ts';
import { parseLocalDay } from '../../shared/local-day.ts';
import { mustBe } from '../../shared/refusal.ts';
import { parseZone } from '../../shared/zone.ts';

const day = (text: string) => mustBe(parseLocalDay(text));
const at = (text: string) => mustBe(parseInstant(text));

describe('reading a zone', () => {
  test.each(['Europe/Dublin', 'America/Toronto', 'UTC', 'Asia/Kolkata'])('%s is a zone', (name) => {
    expect(mustBe(parseZone(name)).name).toBe(name);
  });
  test.each(['Dublin', 'Europe/Nowhere', '', 'GMT+25', '../etc/zone', 'local', 'Europe/Dublin '])(
    '"%s" is refused with how to write one',
    (name) => {
      expect(parseZone(name)).toMatchObject({ ok: false, problem: expect.stringContaining('Europe/Dublin') });
    },
  );
  test('asked twice, the same zone answers', () => {
    expect(mustBe(parseZone('Asia/Kolkata'))).toBe(mustBe(parseZone('Asia/Kolkata')));
  });
});

describe('a farm half an hour off', () => {
  const kolkata = mustBe(parseZone('Asia/Kolkata'));
  test('its date and wall time are its own, not those of UTC', () => {
    expect(kolkata.dayOf(at('2026-03-14T18:29:59Z'))).toBe('2026-03-14');
    expect(kolkata.dayOf(at('2026-03-14T18:30:00Z'))).toBe('2026-03-15');
    expect(kolkata.wallMinutes(at('2026-03-14T18:29:30Z'))).toBe(23 * 60 + 59.5);
    expect(kolkata.wallMinutes(at('1969-12-31T23:30:00Z'))).toBe(5 * 60);
  });
  test('a wall time gives its instant, and the instant the wall time', () => {
    const milking = kolkata.at(day('2026-03-15'), 4 * 60 + 30);
    expect(milking).toBe(at('2026-03-14T23:00:00Z'));
    expect(kolkata.skips(day('2026-03-15'), 4 * 60 + 30)).toBe(false);
  });
});

describe('the edges of a gap and of a repeated hour', () => {
  const dublin = mustBe(parseZone('Europe/Dublin'));
  test('the last minute before the gap and the first after it are ordinary times', () => {
    expect(dublin.at(day('2026-03-29'), 59)).toBe(at('2026-03-29T00:59:00Z'));
    expect(dublin.skips(day('2026-03-29'), 59)).toBe(false);
    expect(dublin.skips(day('2026-03-29'), 60)).toBe(true);
    expect(dublin.skips(day('2026-03-29'), 119)).toBe(true);
    expect(dublin.skips(day('2026-03-29'), 120)).toBe(false);
    expect(dublin.at(day('2026-03-29'), 120)).toBe(at('2026-03-29T01:00:00Z'));
  });
  test('every time in the gap is the one instant after it', () => {
    for (const minutes of [60, 75, 90, 119]) {
      expect(dublin.at(day('2026-03-29'), minutes)).toBe(at('2026-03-29T01:00:00Z'));
    }
  });
  test('a repeated time is its first, and the wall shows it again an hour later', () => {
    const first = dublin.at(day('2026-10-25'), 90);
    expect(first).toBe(at('2026-10-25T00:30:00Z'));
    expect(dublin.wallMinutes(at('2026-10-25T01:30:00Z'))).toBe(90);
  });
});

describe('a date that never was', () => {
  const apia = mustBe(parseZone('Pacific/Apia'));
  test('it has no wall times, and asked where it begins the next date answers', () => {
    expect(apia.at(day('2011-12-30'), 300)).toBeUndefined();
    expect(apia.skips(day('2011-12-30'), 300)).toBe(true);
    expect(apia.startOfDay(day('2011-12-30'))).toBe(apia.startOfDay(day('2011-12-31')));
  });
});
