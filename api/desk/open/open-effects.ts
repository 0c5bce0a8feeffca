/** What an entry would do to the holds, said before it is saved: the same milking worked out with it and without it. */
import { latestEnd } from '../../../projections/hold-piece.ts';
import { meatHoldPieces } from '../../../projections/meat-hold.ts';
import { countsFor, firstCounting, type Moment } from '../../../projections/moment.ts';
import type { Standing } from '../../../projections/standing.ts';
import { standingsAt } from '../../../projections/standings.ts';
import type { Notice } from '../../../projections/views.ts';
import { momentOf } from '../../../projections/views-at.ts';
import { type Instant, instantText } from '../../../shared/instant.ts';
import type { Tonight } from '../../tonight.ts';
import { askedOf } from '../who.tsx';

/** An end of a hold; null without one, undefined where there is no hold. */
type Until = string | null | undefined;

export interface Stand {
  readonly milk: Until;
  /** The milking from which her milk may go in the tank, where that is known. */
  readonly tankFrom: string | null;
  readonly meat: Until;
}

export interface Change {
  readonly cow: string;
  readonly group: string;
  readonly isMilked: boolean;
  readonly was: Stand;
  readonly is: Stand;
}

export interface Effects {
  readonly changes: readonly Change[];
  /** Lines that go from the head of the milk-hold sheet. */
  readonly linesGone: number;
  readonly noticesGone: readonly Notice[];
  readonly noticesNew: readonly Notice[];
}

export const effectsOf = (before: Tonight, after: Tonight): Effects => {
  const was = standsAt(before);
  const is = standsAt(after);
  const changes = [...is].flatMap(([cow, now]): Change[] => {
    const then = was.get(cow)?.stand ?? NO_HOLD;
    if (then.milk === now.stand.milk && then.meat === now.stand.meat && then.tankFrom === now.stand.tankFrom) return [];
    const { standing } = now;
    return [
      { cow: standing.number, group: standing.group.name, isMilked: standing.inMilkDuring, was: then, is: now.stand },
    ];
  });
  const lines = (answer: Tonight) => answer.views.sheets['milk-hold'].unplaced.map(({ key }) => key);
  const left = new Set(lines(after));
  const notices = ({ views }: Tonight) => [...views.alerts, ...views.doubts];
  return {
    changes,
    linesGone: lines(before).filter((key) => !left.has(key)).length,
    noticesGone: without(notices(before), notices(after)),
    noticesNew: without(notices(after), notices(before)),
  };
};

const without = (notices: readonly Notice[], others: readonly Notice[]): readonly Notice[] => {
  const have = new Set(others.map(({ key }) => key));
  return notices.filter(({ key }) => !have.has(key));
};

const NO_HOLD: Stand = { milk: undefined, tankFrom: null, meat: undefined };

const standsAt = (answer: Tonight): ReadonlyMap<string, { standing: Standing; stand: Stand }> => {
  const moment = momentOf(answer.known, askedOf(answer));
  if (moment === undefined) return new Map();
  return new Map(
    standingsAt(answer.known, moment).map((standing) => {
      const meat = meatHoldPieces(standing.file, moment, standing.asides).filter(
        ({ began, end }) => began <= moment.windowEnd && (end === null || end >= moment.milking.start),
      );
      const end = latestEnd(standing.running);
      const stand: Stand = {
        milk: untilText(end),
        tankFrom: tankFromOf(standing, moment),
        meat: untilText(latestEnd(meat)),
      };
      return [standing.file.cow.key, { standing, stand }];
    }),
  );
};

/** The first milking of hers that starts strictly after her milk hold ends; null where she is on none, or on one without end. */
export const tankFromOf = ({ file, running }: Standing, moment: Moment): string | null => {
  const end = latestEnd(running);
  return end === undefined || end === null
    ? null
    : (firstCounting(moment.schedule, countsFor(file, moment), end)?.id ?? null);
};

const untilText = (end: Instant | null | undefined): Until =>
  end === undefined || end === null ? end : instantText(end);
