/** A cow's holds as spans of time, for milk and for meat, over, running and to come; and the days that matter between them. */
import type { Aside } from '../../../events/entry.ts';
import type { Because } from '../../../projections/because.ts';
import type { CowFile } from '../../../projections/cow-file.ts';
import { dryOffDay, dryOffRules } from '../../../projections/dry-off.ts';
import { meatHoldPieces } from '../../../projections/meat-hold.ts';
import { milkHoldPieces } from '../../../projections/milk-hold.ts';
import type { Moment } from '../../../projections/moment.ts';
import { pregnancyAt } from '../../../projections/pregnancy.ts';
import type { Instant } from '../../../shared/instant.ts';
import type { LocalDay } from '../../../shared/local-day.ts';

export interface HoldSpan {
  readonly of: 'milk' | 'meat';
  /** Null: it holds for as long as it stands, and began with no entry of its own. */
  readonly began: Instant | null;
  /** Null: no end known. */
  readonly end: Instant | null;
  /** As at the milking. */
  readonly is: 'over' | 'running' | 'to come';
  readonly reasons: readonly Because[];
}

export interface Mark {
  readonly at: Instant;
  readonly what: 'entered' | 'calved' | 'aborted' | 'dry-off' | 'to dry off' | 'due' | 'left';
  /** Where only the date is known. */
  readonly day: LocalDay | null;
}

/** Milk before meat, the earliest first. Reasons of one beginning and one end are one span. */
export const holdSpans = (
  file: CowFile,
  moment: Moment,
  asides: readonly Aside[],
  isThere: boolean,
): readonly HoldSpan[] => {
  // That a cow stands dry among milkers says where she stands; one that is not there stands nowhere.
  const milk = milkHoldPieces(file, moment, asides).filter(({ because }) => isThere || because.rule !== 'R-24');
  return [...spansOf('milk', milk, moment), ...spansOf('meat', meatHoldPieces(file, moment, asides), moment)];
};

interface Piece {
  readonly began: Instant;
  readonly end: Instant | null;
  readonly because: Because;
}

const spansOf = (of: HoldSpan['of'], pieces: readonly Piece[], { milking, windowEnd }: Moment): HoldSpan[] => {
  const spans = new Map<string, HoldSpan>();
  for (const { began, end, because } of pieces) {
    const key = `${began} ${end}`;
    const have = spans.get(key);
    const is = began > windowEnd ? 'to come' : end !== null && end < milking.start ? 'over' : 'running';
    spans.set(key, {
      of,
      began: began === 0 ? null : began,
      end,
      is,
      reasons: [...(have?.reasons ?? []), because],
    });
  }
  return [...spans.values()].sort((a, b) => (a.began ?? 0) - (b.began ?? 0) || (a.end ?? FAR) - (b.end ?? FAR));
};

const FAR = Number.MAX_SAFE_INTEGER;

/** What happened, and what is expected, in order. */
export const marksOf = (file: CowFile, moment: Moment): readonly Mark[] => {
  const { schedule } = moment;
  const { cow, lactations } = file;
  const onDay = (day: LocalDay): Instant => schedule.inForceOn(day).zone.startOfDay(day);
  const { due, confirmed } = pregnancyAt(cow, schedule, moment.windowEnd);
  const isDry = lactations.stretches.at(-1)?.to !== null;
  const expected: Mark[] =
    due === null || !confirmed
      ? []
      : [
          { at: onDay(due), what: 'due', day: due },
          ...(isDry ? [] : [dryOffDay(due, dryOffRules(moment)).day].map((day) => dryOffMark(onDay(day), day))),
        ];
  return [
    ...cow.entered.map(({ at }): Mark => ({ at, what: 'entered', day: null })),
    ...cow.left.map(({ at }): Mark => ({ at, what: 'left', day: null })),
    ...lactations.stretches.flatMap((stretch): Mark[] => {
      if (stretch.calved === null) return [];
      const what = stretch.begun === 'abortion' ? 'aborted' : 'calved';
      return [{ at: stretch.from, what, day: stretch.begun === 'entered' ? stretch.calvedDay : null }];
    }),
    ...lactations.dryStarts.map(
      ({ earliest, at, day }): Mark => ({
        at: earliest,
        what: 'dry-off',
        day: at === earliest ? null : day,
      }),
    ),
    ...expected,
  ].sort((a, b) => a.at - b.at);
};

const dryOffMark = (at: Instant, day: LocalDay): Mark => ({ at, what: 'to dry off', day });
