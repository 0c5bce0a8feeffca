import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readHerdFile } from '../../api/import-herd/import-herd.ts';
import { contentOf, readLine, readValue } from '../../events/door.ts';
import type { Aside, Entry } from '../../events/entry.ts';
import { ENTRY_TYPES, KINDS } from '../../events/kinds.ts';
import { readStored } from '../../events/stored.ts';
import { know } from '../../projections/know.ts';
import type { Views } from '../../projections/views.ts';
import { viewsAt } from '../../projections/views-at.ts';
import { DEMO_ZONE, HERD_AS_OF, TODAY } from '../../seeds/calendar.ts';
import { DEMO_FARM } from '../../seeds/demo-farm.ts';
import { HERD, herdCsv } from '../../seeds/herd.ts';
import { MEDICINES } from '../../seeds/medicines.ts';
import {
  DEMO_EARLIER,
  DEMO_NOW,
  demoArrivals,
  demoDescription,
  demoEntries,
  demoRefusedLines,
  EXAMPLES,
} from '../../seeds/sixty-days.ts';
import { canonicalJson, sha256 } from '../../shared/fingerprint.ts';
import { type Instant, instantText } from '../../shared/instant.ts';

const SETTINGS = { source: 'demo', author: 'demo', now: DEMO_NOW };
const ARRIVALS = demoArrivals();

describe('the entries', () => {
  test('every entry of the demo passes the door as it stands', () => {
    const refused = demoEntries()
      .map((said) => readValue(said, SETTINGS))
      .filter((each) => each.outcome === 'refused');
    expect(refused).toEqual([]);
  });

  test('ids are unique, and no entry reaches the book before it happened or after now', () => {
    expect(new Set(ARRIVALS.map(({ said }) => said.id)).size).toBe(ARRIVALS.length);
    const impossible = ARRIVALS.filter(
      ({ said, recordedAt }) => Date.parse(said.time) > recordedAt || recordedAt > DEMO_NOW,
    );
    expect(impossible).toEqual([]);
  });

  test('the demo is the same each time it is made', () => {
    const again = demoArrivals();
    expect(sha256(canonicalJson(again))).toBe(sha256(canonicalJson(ARRIVALS)));
  });

  test('entries come in the order they reached the book, and some of them late', () => {
    const recorded = ARRIVALS.map(({ recordedAt }) => recordedAt);
    expect(recorded).toEqual([...recorded].sort((a, b) => a - b));
    const late = ARRIVALS.filter(
      ({ said, recordedAt }) => said.type === 'treatment' && recordedAt - Date.parse(said.time) > 86_400_000,
    );
    expect(late.map(({ said }) => said.subject)).toEqual(['274']);
  });

  test('every kind that people write is in it, but for the return of a sheet', () => {
    const used = new Set(ARRIVALS.map(({ said }) => said.type));
    const missing = ENTRY_TYPES.filter((type) => !used.has(type) && !('bookOnly' in KINDS[type]));
    expect(missing).toEqual(['sheet-returned']);
  });

  test('it is a herd of 300 to 500 cows and small enough to start at once', () => {
    expect(HERD.length).toBeGreaterThanOrEqual(300);
    expect(HERD.length).toBeLessThanOrEqual(500);
    expect(ARRIVALS.length).toBeLessThan(15_000);
    expect(demoDescription).toContain(`${HERD.length} cows`);
  });

  test('the lines that are to be set aside are refused at the door, each for its own reason', () => {
    const outcomes = demoRefusedLines.map(({ text }) => readLine(text, SETTINGS));
    expect(outcomes.map((each) => each.outcome)).toEqual(['refused', 'refused', 'refused']);
    expect(outcomes.map((each) => (each.outcome === 'refused' ? each.cows : null))).toEqual([['586'], [], ['583']]);
  });

  test('medicines are listed under one name each, by active ingredient', () => {
    const names = Object.values(MEDICINES).map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    expect(names.length).toBeGreaterThanOrEqual(12);
    expect(names.length).toBeLessThanOrEqual(18);
  });
});

describe('the herd list', () => {
  const file = readFileSync(new URL('../../seeds/herd.csv', import.meta.url));

  test('herd.csv is the list that the seeds make', () => {
    expect(file.toString('utf8')).toBe(herdCsv());
  });

  test('herd.csv imports without a refusal to the very cows that the entries enter', () => {
    const imported = readHerdFile(file, {
      asOf: HERD_AS_OF,
      zone: DEMO_ZONE,
      groups: DEMO_FARM.groups,
      source: 'office',
      author: 'Nuala Terpstra',
    });
    expect(imported.problem).toBeUndefined();
    expect(imported.refusals).toEqual([]);
    expect(imported.mapping.every(({ field }) => field !== null)).toBe(true);
    const listed = imported.entries.map(({ value: { subject, time, data } }) => ({ subject, time, data }));
    const entered = demoEntries()
      .filter(({ type, time }) => type === 'cow-entered' && time === instantText(HERD_AS_OF))
      .map(({ subject, time, data }) => ({ subject, time, data }));
    const inOrder = (cows: readonly object[]) => cows.map((cow) => canonicalJson(cow)).sort();
    expect(inOrder(listed)).toEqual(inOrder(entered));
    expect(listed.length).toBeGreaterThan(300);
  });
});

describe('what the sheets show', () => {
  const entriesBy = (now: Instant): Entry[] =>
    ARRIVALS.filter(({ recordedAt }) => recordedAt <= now).map(({ said, recordedAt }, index) => {
      const sequence = String(index + 1).padStart(10, '0');
      const entry = canonicalJson({ ...said, sequence, recordedtime: instantText(recordedAt) });
      const read = readStored({ position: index + 1, entry, content: contentOf(said) });
      if (!read.ok) throw new Error(read.unusable.problem);
      return read.entry;
    });

  const asidesBy = (now: Instant): Aside[] =>
    demoRefusedLines
      .filter(({ recordedAt }) => recordedAt <= now)
      .map(({ recordedAt, text }) => {
        const { problem, cows } = notPassed(text);
        return { key: `aside:${sha256(text).slice(0, 8)}`, problem, cows, recordedAt };
      });

  const notPassed = (text: string) => {
    const outcome = readLine(text, SETTINGS);
    if (outcome.outcome === 'passed') throw new Error('A line meant to be refused passed the door');
    return outcome;
  };

  const viewsBy = (now: Instant, milking: string): Views => {
    const entries = entriesBy(now);
    const known = know(entries, asidesBy(now));
    const found = known.farm.schedule?.find(milking);
    if (found === undefined) throw new Error(`There is no milking ${milking}`);
    return viewsAt(known, { milking: found, asOf: now, position: entries.length });
  };

  const views = viewsBy(DEMO_NOW, `${TODAY}/afternoon`);

  /** A row as this test needs it: whom it is about, and the sayings on it. */
  interface Row {
    readonly cow: string;
    readonly says: readonly string[];
  }

  /** Reads any list of the views, whatever its rows look like. */
  const rowsOn = (on: string): Row[] => {
    const [sheet = '', list = ''] = on.split('/');
    const rows: unknown =
      sheet === 'doubts'
        ? views.doubts
        : sheet === 'alerts'
          ? views.alerts
          : fieldOf(fieldOf(views.sheets, sheet), list);
    if (!Array.isArray(rows)) throw new Error(`There is no list ${on}`);
    return rows.map((row: unknown) => {
      const because = fieldOf(row, 'because');
      const values = fieldOf(because, 'values');
      const named =
        typeof row === 'string'
          ? row
          : [fieldOf(row, 'cow'), fieldOf(row, 'number'), fieldOf(values, 'cow'), fieldOf(values, 'number')].find(
              (each) => typeof each === 'string',
            );
      const reasons = [because, ...listOf(fieldOf(row, 'reasons')), ...listOf(fieldOf(row, 'warnings'))];
      return {
        cow: String(named),
        says: reasons.map((reason) => fieldOf(reason, 'key')).filter((key) => typeof key === 'string'),
      };
    });
  };
  const fieldOf = (value: unknown, field: string): unknown =>
    typeof value === 'object' && value !== null ? Reflect.get(value, field) : undefined;
  const listOf = (value: unknown): unknown[] => (Array.isArray(value) ? value : []);

  test.each(EXAMPLES.map((example) => [example.rule, example.cow, example.shows, example] as const))(
    '%s is shown by %s: %s',
    (_rule, cow, _shows, { on, says, absent }) => {
      const rows = rowsOn(on).filter((row) => row.cow === cow);
      if (absent) expect(rows).toEqual([]);
      else expect(rows.flatMap((row) => row.says)).toEqual(says === undefined ? [] : expect.arrayContaining([says]));
      expect(rows.length > 0).toBe(absent !== true);
    },
  );

  test('R-25 both cows that bear one number are held for its dose', () => {
    expect(rowsOn('milk-hold/held').filter(({ cow }) => cow === '630')).toHaveLength(2);
  });

  test('R-11 a hold across the change of clocks ends an hour later by the clock: 274, on 2 April at 11:00 in Dublin', () => {
    expect(views.sheets['milk-hold'].held.find(({ cow }) => cow === '274')?.until).toBe('2026-04-02T10:00:00Z');
  });

  test('R-26 what was free only since the morning stood on the morning sheet', () => {
    const morning = viewsBy(DEMO_EARLIER, `${TODAY}/morning`).sheets['milk-hold'].held.map(({ cow }) => cow);
    const afternoon = views.sheets['milk-hold'].held.map(({ cow }) => cow);
    for (const cow of ['395', '411', '590']) {
      expect(morning).toContain(cow);
      expect(afternoon).not.toContain(cow);
    }
  });

  test('R-31 the dose of 274 was written down after the morning sheet was issued, so the morning sheet lacked her', () => {
    const morning = viewsBy(DEMO_EARLIER, `${TODAY}/morning`).sheets['milk-hold'].held.map(({ cow }) => cow);
    expect(morning).not.toContain('274');
  });

  test('every list of every sheet has rows, but what only an issued sheet can bring', () => {
    const empty = Object.entries(views.sheets).flatMap(([sheet, lists]) =>
      Object.entries(lists).flatMap(([list, rows]) =>
        Array.isArray(rows) && rows.length === 0 ? [`${sheet}/${list}`] : [],
      ),
    );
    expect(empty).toEqual(['milk-hold/cleared', 'milk-hold/gone']);
  });

  test('most cows are ordinary: few are on hold, and a handful each are due, fresh and to be sorted', () => {
    const { held } = views.sheets['milk-hold'];
    expect(held.length).toBeGreaterThanOrEqual(10);
    expect(held.length).toBeLessThanOrEqual(30);
    const { due } = views.sheets['dry-off'];
    expect(due.length).toBeGreaterThanOrEqual(3);
    expect(due.length).toBeLessThanOrEqual(6);
    const fresh = views.sheets.counts.groups.find(({ group }) => group === 'Fresh');
    expect(fresh?.head).toBeGreaterThanOrEqual(4);
    expect(fresh?.head).toBeLessThanOrEqual(8);
  });

  test('every cow on a list of the demo is there for an example, so that nothing is on paper by accident', () => {
    const examples = new Set(EXAMPLES.map(({ cow }) => cow));
    const stray = [
      'milk-hold/held',
      'milk-hold/treat',
      'dry-off/due',
      'dry-off/undecided',
      'fresh-moves/out',
      'fresh-moves/stay',
      'fresh-moves/in',
      'sort/cows',
      'sort/cannot',
    ].flatMap((on) =>
      rowsOn(on)
        .filter(({ cow }) => !examples.has(cow))
        .map(({ cow }) => `${on}: ${cow}`),
    );
    expect(stray).toEqual([]);
  });

  test('R-70 one group was counted one short this morning, and the others agree with the book', () => {
    const differing = views.sheets.counts.groups.filter(({ countedDifference }) => countedDifference !== 0);
    expect(differing.map(({ group, countedDifference }) => [group, countedDifference])).toEqual([['Steady', -1]]);
  });

  test('R-51 one milking group stands over its capacity', () => {
    const over = views.sheets.counts.groups.filter(({ head, capacity }) => capacity !== null && head > capacity);
    expect(over.map(({ group }) => group)).toEqual(['High']);
  });
});
