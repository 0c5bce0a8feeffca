/** A date and time read off the farm's clock: what the clocks skip, or say twice, is asked again and never guessed. */
import { describe, expect, test } from 'vitest';
import { readWall, wallText } from '../../../api/desk/wall-time.ts';
import { mustBe } from '../../../shared/refusal.ts';
import { parseZone } from '../../../shared/zone.ts';
import { at } from '../../events/a-book.ts';

const dublin = mustBe(parseZone('Europe/Dublin'));
const lordHowe = mustBe(parseZone('Australia/Lord_Howe'));

describe('a time as a person types it', () => {
  test('is taken on the farm’s clock, in summer and in winter, and comes back as it was typed', () => {
    expect(readWall(dublin, '2026-07-01T16:40')).toEqual({ ok: true, value: at('2026-07-01T15:40:00Z') });
    expect(readWall(dublin, '2026-12-01 16:40')).toEqual({ ok: true, value: at('2026-12-01T16:40:00Z') });
    expect(wallText(dublin, at('2026-07-01T15:40:00Z'))).toBe('2026-07-01T16:40');
  });

  test('that the clocks skipped is refused', () => {
    expect(readWall(dublin, '2026-03-29T01:30')).toMatchObject({
      ok: false,
      problem: expect.stringMatching(/never was/),
    });
    expect(readWall(dublin, '2026-03-29T02:00')).toMatchObject({ ok: true });
  });

  test('that came twice is refused, also where the clocks go back by half an hour', () => {
    expect(readWall(dublin, '2026-10-25T01:30')).toMatchObject({
      ok: false,
      problem: expect.stringMatching(/came twice/),
    });
    expect(readWall(dublin, '2026-10-25T02:00')).toMatchObject({ ok: true });
    expect(readWall(lordHowe, '2026-04-05T01:45')).toMatchObject({
      ok: false,
      problem: expect.stringMatching(/came twice/),
    });
    expect(readWall(lordHowe, '2026-04-05T02:00')).toMatchObject({ ok: true });
  });

  test.each(['', 'yesterday', '2026-02-30T10:00', '2026-03-14T24:00', '14/03/2026 10:00'])('%j is refused', (text) => {
    expect(readWall(dublin, text).ok).toBe(false);
  });
});
