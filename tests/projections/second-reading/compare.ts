/** The product and the second reading, asked the same; every answer that is not the same is a difference. */
import type { Entry } from '../../../events/entry.ts';
import { know } from '../../../projections/know.ts';
import type { Standing } from '../../../projections/standing.ts';
import { standingsAt } from '../../../projections/standings.ts';
import type { HeldRow } from '../../../projections/views.ts';
import { momentOf, viewsAt } from '../../../projections/views-at.ts';
import { mustBeInstant } from '../../../shared/instant.ts';
import { type Answer, secondReading } from './model.ts';

/** One cow at one milking. Her end and her tank are compared where nothing later is known: the rest is hindsight. */
export interface Difference {
  readonly milking: string;
  readonly cow: string;
  readonly product: string;
  readonly reading: string;
  readonly whys: readonly string[];
}

/** The milkings that the second reading counts. */
const DAYS = ['2026-01-01', '2026-07-31'] as const;

interface Said {
  readonly inMilk: boolean;
  readonly held: boolean;
  readonly until: string | null;
  readonly tankFrom: string | null;
}

const text = ({ inMilk, held, until, tankFrom }: Said, foreseen: boolean): string =>
  `${inMilk ? 'in milk' : 'not in milk'}, ${held ? 'held' : 'free'}${held && foreseen ? ` until ${until}, tank from ${tankFrom}` : ''}`;

const timeOf = (instant: number | undefined): string | null =>
  instant === undefined || instant === Number.POSITIVE_INFINITY
    ? null
    : new Date(instant).toISOString().replace('.000Z', 'Z');

/** A milking is asked about at its start, or when it is said. */
export const differences = (
  entries: readonly Entry[],
  milkings: readonly string[],
  asOf?: string,
): readonly Difference[] => {
  const known = know(entries, []);
  const ask = secondReading(entries, DAYS);
  return milkings.flatMap((id) => {
    const milking = known.farm.schedule?.find(id);
    if (milking === undefined) return [];
    const asked = { milking, asOf: asOf === undefined ? milking.start : mustBeInstant(asOf), position: 0 };
    const moment = momentOf(known, asked);
    if (moment === undefined) throw new Error('no farm');
    const standings = new Map(standingsAt(known, moment).map((each) => [each.file.cow.key as string, each]));
    const rows = viewsAt(known, asked).sheets['milk-hold'].held;
    const reading = ask(id, asked.asOf);
    return [...new Set([...standings.keys(), ...reading.keys()])].flatMap((cow) => {
      const answer = reading.get(cow);
      const standing = standings.get(cow);
      const row = rows.find((each) => each.cow === standing?.number && each.group === standing.group.name);
      const foreseen = answer?.foreseen === true;
      const theirs = standing === undefined ? NOT_HERE : text(ofProduct(standing, row), foreseen);
      const ours = answer === undefined ? NOT_HERE : text(ofReading(answer), foreseen);
      if (theirs === ours) return [];
      const reasons = (row?.reasons ?? []).map(
        (each) => `${each.rule} ${each.key} ${each.until} ${each.entries.join()}`,
      );
      return [{ milking: id, cow, product: theirs, reading: ours, whys: [...reasons, ...(answer?.whys ?? [])] }];
    });
  });
};

const NOT_HERE = 'not here';

const ofProduct = ({ inMilk, held }: Standing, row: HeldRow | undefined): Said => ({
  inMilk,
  held: held && row !== undefined,
  until: row?.until ?? null,
  tankFrom: row?.tankFrom ?? null,
});

const ofReading = ({ inMilk, held, until, tankFrom }: Answer): Said => ({
  inMilk,
  held,
  until: timeOf(until),
  tankFrom: tankFrom ?? null,
});
