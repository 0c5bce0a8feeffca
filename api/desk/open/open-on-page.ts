/** What the pieces of the page where things are settled share. */
import type { Moment } from '../../../projections/moment.ts';
import type { Desk, Visitor } from '../ask.ts';
import type { AtHand } from '../at-hand.ts';
import type { EntriesById } from './open-entries.tsx';

export interface OnPage {
  readonly desk: Desk;
  readonly visitor: Visitor;
  readonly hand: AtHand;
  readonly moment: Moment;
  readonly byId: EntriesById;
}
