/** What was known then, what was on the wall, what is known now: through a real book. */
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { contentOf } from '../../api/issue.ts';
import { replay } from '../../api/replay.ts';
import { knowledgeAlong, tonight, tonightFrom } from '../../api/tonight.ts';
import { canonicalJson, sha256 } from '../../shared/fingerprint.ts';
import { instantText, mustBeInstant } from '../../shared/instant.ts';
import { type AFarm, aFarm, CEPHAPIRIN, PENICILLIN } from './a-farm.ts';

let farm: AFarm;
beforeEach(() => {
  farm = aFarm();
});
afterEach(() => farm.close());

const AFTERNOON = '2026-03-01/afternoon';

describe('replay', () => {
  test('a dose that came in late is not on the list as known then, is on it now, and is named as the reason', async () => {
    farm.at('2026-03-01T16:00:00Z');
    await farm.issue();
    farm.at('2026-03-01T21:00:00Z');
    farm.say('treatment', '2026-03-01T10:00:00Z', '101', { medicine: PENICILLIN }, 'late-dose');
    const { past, present, differences, issued } = replay(farm.book, {
      milking: AFTERNOON,
      knownAt: mustBeInstant('2026-03-01T16:00:00Z'),
    });
    expect(past.views.sheets['milk-hold'].held).toEqual([]);
    expect(present.views.sheets['milk-hold'].held.map(({ cow }) => cow)).toEqual(['101']);
    expect(issued).toEqual([expect.objectContaining({ agrees: true })]);
    const hers = differences.find(({ list, cow }) => list === 'milk-hold' && cow === '101');
    expect(hers).toMatchObject({
      was: null,
      because: [{ entry: 'late-dose', how: 'known-later', recordedtime: '2026-03-01T21:00:00Z' }],
    });
  });

  test('an entry struck since is named with the strike', () => {
    farm.say('treatment', '2026-03-01T10:00:00Z', '101', { medicine: PENICILLIN }, 'dose');
    const { position } = farm.book.head();
    farm.at('2026-03-01T21:00:00Z');
    farm.say(
      'entry-struck',
      '2026-03-01T20:00:00Z',
      undefined,
      { entry: 'dose', reason: 'never given', instead: 'nothing' },
      'strike',
    );
    const { differences } = replay(farm.book, { milking: AFTERNOON, position });
    const hers = differences.find(({ list }) => list === 'milk-hold');
    expect(hers).toMatchObject({ cow: '101', is: null, because: [{ entry: 'strike', how: 'struck-since' }] });
  });

  test('a set replayed by its ref gives the rows it was issued with, whatever came in since', async () => {
    farm.say('treatment', '2026-03-01T10:00:00Z', '101', {
      medicine: PENICILLIN,
      course: { id: 'c1', dose: 1, of: 3, everyHours: 12 },
    });
    const { ref } = await farm.issue();
    farm.at('2026-03-03T09:00:00Z');
    farm.say('treatment', '2026-03-01T09:00:00Z', '102', { medicine: CEPHAPIRIN });
    const { past, issued } = replay(farm.book, { ref });
    const stored = farm.book
      .read()
      .entries.flatMap((entry) => (entry.type === 'sheet-issued' ? entry.data.sheets : []));
    expect(stored.length).toBeGreaterThan(7);
    for (const { sheet, contentHash } of stored) {
      expect(sha256(canonicalJson(contentOf(past.views, sheet as 'milk-hold')))).toBe(contentHash);
    }
    expect(issued[0]?.agrees).toBe(true);
  });

  test('a line set aside after the issue is no part of what was known then, though the clock stood still', async () => {
    const { ref } = await farm.issue();
    farm.say('treatment', '2026-03-01T10:00:00Z', '103', { medicin: PENICILLIN });
    const { issued, differences } = replay(farm.book, { ref });
    expect(issued[0]?.agrees).toBe(true);
    expect(differences.find(({ list }) => list === 'milk-hold')).toMatchObject({
      cow: '103',
      because: [{ how: 'set-aside-later' }],
    });
  });

  test('an issued paper is given back byte for byte', async () => {
    const { papers } = await farm.issue();
    farm.at('2026-03-02T09:00:00Z');
    const stored = farm.book
      .read()
      .entries.flatMap((entry) => (entry.type === 'sheet-issued' ? entry.data.sheets : []));
    for (const { sheet, bytes } of papers) {
      const hash = stored.find((each) => each.sheet === sheet)?.pdfHash ?? '';
      expect(Buffer.compare(farm.book.paper(hash) ?? new Uint8Array(), bytes)).toBe(0);
    }
  });
});

/** One thing said, at some hour of two days, and some hours later in the book. */
const happening = fc.record({
  cow: fc.constantFrom('101', '102', '103', '104', '999'),
  hour: fc.integer({ min: 0, max: 40 }),
  late: fc.integer({ min: 0, max: 12 }),
  what: fc.constantFrom('penicillin', 'cephapirin', 'unlisted', 'hold', 'lift', 'sort', 'dry', 'misspelt'),
});

const DATA: Record<string, [type: string, data: Record<string, unknown>]> = {
  penicillin: ['treatment', { medicine: PENICILLIN }],
  cephapirin: ['treatment', { medicine: CEPHAPIRIN }],
  unlisted: ['treatment', { medicine: 'Not listed' }],
  hold: ['milk-hold', { reason: 'clots' }],
  lift: ['milk-hold-lifted', { reason: 'clear' }],
  sort: ['sort-request', { reason: 'lame' }],
  dry: ['dry-off', { product: 'none', group: 'Dry' }],
  misspelt: ['treatment', { medicin: PENICILLIN }],
};

const record = (
  happenings: readonly { cow: string; hour: number; late: number; what: string }[],
  from: AFarm,
): void => {
  const start = mustBeInstant('2026-03-01T12:00:00Z');
  const inOrder = [...happenings].sort((a, b) => a.hour + a.late - (b.hour + b.late));
  for (const { cow, hour, late, what } of inOrder) {
    const [type, data] = DATA[what] ?? ['', {}];
    from.at(instantText((start + (hour + late) * 3_600_000) as typeof start));
    from.say(type, instantText((start + hour * 3_600_000) as typeof start), cow, data);
  }
};

describe('laws of replay', () => {
  test('replay as known now is what print prints, for random histories', () => {
    fc.assert(
      fc.property(fc.array(happening, { maxLength: 12 }), (happenings) => {
        const other = aFarm();
        try {
          record(happenings, other);
          other.at('2026-03-04T03:00:00Z');
          const { milking, views } = tonight(other.book);
          const now = other.book.clock.now();
          expect(replay(other.book, { milking: milking.id, knownAt: now }).past.views).toEqual(views);
        } finally {
          other.close();
        }
      }),
      { seed: 20260314, numRuns: 40 },
    );
  });

  test('an issued set replayed at its position is its stored content, for random histories before and after', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(happening, { maxLength: 6 }),
        fc.array(happening, { maxLength: 6 }),
        async (before, after) => {
          const other = aFarm();
          try {
            record(before, other);
            other.at('2026-03-04T03:00:00Z');
            const { ref } = await other.issue();
            for (const { cow, hour, what } of after) {
              const [type, data] = DATA[what] ?? ['', {}];
              other.say(
                type,
                instantText((mustBeInstant('2026-03-01T12:30:00Z') + hour * 3_600_000) as never),
                cow,
                data,
              );
            }
            expect(replay(other.book, { ref }).issued.map(({ agrees }) => agrees)).toEqual([true]);
          } finally {
            other.close();
          }
        },
      ),
      { seed: 20260315, numRuns: 12 },
    );
  });

  test('what was known at one position after the other, gone on from the one before, is what is known by reading up to each', () => {
    fc.assert(
      fc.property(fc.array(happening, { maxLength: 12 }), fc.infiniteStream(fc.nat()), (happenings, jumps) => {
        const other = aFarm();
        try {
          const { position: first } = other.book.head();
          record(happenings, other);
          const { position: end } = other.book.head();
          const knownAt = knowledgeAlong(other.book);
          const upwards = Array.from({ length: end - first + 1 }, (_, index) => first + index);
          // Back again and beyond the end too.
          for (const position of [...upwards, first + ((jumps.next().value ?? 0) % (end - first + 1)), end + 3, end]) {
            const question = { milking: AFTERNOON, position, asOf: mustBeInstant('2026-03-02T12:00:00Z') };
            const along = tonightFrom(knownAt(position), question, other.book.clock.now());
            const anew = tonight(other.book, question);
            expect(JSON.stringify(along.views)).toBe(JSON.stringify(anew.views));
            const { root, asides } = along;
            expect([root, asides, along.entries()]).toEqual([anew.root, anew.asides, anew.entries()]);
          }
        } finally {
          other.close();
        }
      }),
      { seed: 20260316, numRuns: 25 },
    );
  });

  test('struck and entered again gives the sheets of having said it right at once, and history keeps both', () => {
    const wrong = aFarm();
    const right = aFarm();
    try {
      wrong.say('treatment', '2026-03-01T10:00:00Z', '101', { medicine: CEPHAPIRIN }, 'wrong');
      for (const each of [wrong, right])
        each.say('treatment', '2026-03-01T10:00:00Z', '101', { medicine: PENICILLIN }, 'right');
      wrong.say('entry-struck', '2026-03-01T11:00:00Z', undefined, {
        entry: 'wrong',
        reason: 'other tube',
        instead: 'right',
      });
      expect(wrong.print().sheets).toEqual(right.print().sheets);
      const kept = wrong.book.read().entries.map(({ id }) => id);
      expect(kept).toEqual(expect.arrayContaining(['wrong', 'right']));
    } finally {
      wrong.close();
      right.close();
    }
  });
});
