/** Of a cow whose calving is known only by its date, paper says the date: her hold counts from that day's end all the same. */
import { describe, expect, test } from 'vitest';
import { formatFor } from '../../print/words/format.ts';
import { LANGUAGES, sayIn, sayToCrew, wordsFor } from '../../print/words.ts';
import { mustBe } from '../../shared/refusal.ts';
import { parseZone } from '../../shared/zone.ts';
import { about, CUPBOARD, evening, farm, milker } from '../projections/evening.ts';

const zone = mustBe(parseZone('UTC'));
const AT = '2026-03-15/morning';
const fresh = (more: object) =>
  about('31', 'cow-entered', '2026-03-14T12:00:00Z', {
    group: 'Fresh',
    lactation: 3,
    calvedOn: '2026-03-13',
    milkHoldUntil: 'none',
    meatHoldUntil: 'none',
    ...more,
  });
const reasonsOf = (...sayings: Parameters<typeof evening>[0]) =>
  evening([farm({ freshHold: { hours: 72 } }), ...CUPBOARD, ...sayings]).held('31', AT)?.reasons ?? [];

describe('calved on a day', () => {
  const tube = { driedOffOn: '2026-01-10', driedOffWith: 'Dry-cow tube' };

  test.each(LANGUAGES)(
    'R-06 R-20 in %s every reason says the date and no midnight, for the office and the crew',
    (language) => {
      const words = wordsFor(language);
      const format = formatFor(words, { zone, near: '2026-03-15' as never });
      const reasons = [...reasonsOf(fresh({})), ...reasonsOf(fresh({ ...tube, driedOffOn: '2026-02-20' }))];
      expect(reasons.map(({ key }) => key)).toEqual(expect.arrayContaining(['hold.fresh', 'hold.dry-cow-early']));
      for (const reason of reasons) {
        for (const said of [sayIn(words, reason, { zone }), sayToCrew(words, reason, format)]) {
          expect(said).not.toMatch(/14.*00:00/);
          if (reason.key === 'hold.fresh') expect(said).toContain('13');
        }
      }
    },
  );

  test('R-06 R-20 what holds her counts from the end of that day', () => {
    const [reason] = reasonsOf(fresh({}));
    expect(reason?.values).toEqual({
      calved: '2026-03-14T00:00:00Z',
      calvedOn: '2026-03-13',
      hours: 72,
      milkings: null,
      ends: '2026-03-17T00:00:00Z',
    });
    expect(sayIn(wordsFor('en'), reason as never, { zone })).toContain('calved Fri 13 Mar 2026 + 72 h');
  });

  test('R-07 a calving written down later with its time is said by its time', () => {
    const calving = about('31', 'calving', '2026-03-14T14:00:00Z', { calves: [{ sex: 'female', alive: true }] });
    expect(reasonsOf(fresh({}), calving)[0]?.values).not.toHaveProperty('calvedOn');
    const earlier = about('31', 'calving', '2026-03-13T14:00:00Z', { calves: [{ sex: 'female', alive: true }] });
    const [reason] = reasonsOf(fresh({}), { ...earlier, time: '2026-03-14T12:30:00Z' });
    expect(reason?.values).not.toHaveProperty('calvedOn');
  });

  test('R-50 the fresh pen says the date', () => {
    const { sheets } = evening([farm(), ...CUPBOARD, fresh({}), milker('1')]).at(AT);
    expect(sheets['fresh-moves'].pen).toEqual([expect.objectContaining({ cow: '31', calvedOn: '2026-03-13' })]);
    const [stays] = sheets['fresh-moves'].stay;
    expect(stays?.because.values).toMatchObject({ calvedOn: '2026-03-13' });
  });
});
