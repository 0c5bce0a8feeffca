/** What nearly every page needs to draw itself: the next milking, the words, the frame. */
import type { Schedule } from '../../projections/schedule.ts';
import type { Tonight } from '../tonight.ts';
import type { Desk, Visitor } from './ask.ts';
import type { Frame } from './layout.tsx';
import { type Speaking, speakingOf } from './speaking.ts';

export interface AtHand extends Speaking {
  readonly answer: Tonight;
  readonly schedule: Schedule;
  /** The frame of a page, but for its title and what stands in it. */
  readonly frame: Omit<Frame, 'title' | 'children'>;
}

/** Undefined where the book has no farm yet. */
export const atHand = (desk: Desk, visitor: Visitor, at: string, milking?: string): AtHand | undefined => {
  const { schedule } = desk.knowing.now().known.farm;
  if (schedule === undefined) return undefined;
  const answer = desk.knowing.tonight(milking);
  return { answer, schedule, frame: frameOf(desk, visitor, at), ...speakingOf(schedule, desk.now()) };
};

/** The frame of a page, with or without a farm. */
export const frameOf = (desk: Desk, visitor: Visitor, at: string): Omit<Frame, 'title' | 'children'> => {
  const { schedule } = desk.knowing.now().known.farm;
  if (schedule === undefined) return { visitor, at };
  const { views } = desk.knowing.tonight();
  const open = views.alerts.length + views.doubts.length;
  return { visitor, at, open, farm: views.farm.name };
};
