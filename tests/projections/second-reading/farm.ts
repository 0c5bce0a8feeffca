/** The farm for the second reading: which set-up governs when, every milking in a row, who is milked at it. */
import type { Entry, EntryOf } from '../../../events/entry.ts';
import type { DataOf } from '../../../events/kinds.ts';
import { dayAfter, dayOf, wallTime } from './wall.ts';

export type SetUp = DataOf<'farm-set-up'>;

export interface Milking {
  readonly id: string;
  readonly name: string;
  readonly start: number;
  readonly setUp: SetUp;
}

export interface Farm {
  readonly zone: string;
  readonly rulesAt: (instant: number) => SetUp;
  /** In order, over the days asked for. */
  readonly milkings: readonly Milking[];
}

export const farmOf = (entries: readonly Entry[], from: string, to: string): Farm => {
  const setUps = entries.filter((entry): entry is EntryOf<'farm-set-up'> => entry.type === 'farm-set-up');
  const [first] = setUps;
  if (first === undefined) throw new Error('no set-up');
  const zone = first.data.timeZone;
  const on = (day: string): SetUp => {
    let governs = first.data;
    for (const each of setUps) {
      if ((each.data.from ?? dayAfter(dayOf(zone, each.at), 1)) <= day) governs = each.data;
    }
    return governs;
  };
  const milkings: Milking[] = [];
  for (let day = from; day <= to; day = dayAfter(day, 1)) {
    const setUp = on(day);
    for (const { name, start } of setUp.milkings) {
      milkings.push({ id: `${day}/${name}`, name, start: wallTime(zone, day, start), setUp });
    }
  }
  milkings.sort((a, b) => a.start - b.start);
  return { zone, milkings, rulesAt: (instant) => on(dayOf(zone, instant)) };
};

export const groupIn = (setUp: SetUp, name: string) => setUp.groups.find((group) => group.name === name);

/** Whether cows that stand in that group go through the parlour at that milking. */
export const goesThrough = ({ name, setUp }: Milking, group: string): boolean => {
  const known = groupIn(setUp, group);
  if (known === undefined || known.kind === 'dry' || known.kind === 'close-up') return false;
  return known.milkedAt === undefined || known.milkedAt.includes(name);
};
