/** What is written of a cow of the big herd on the day she enters the book: what had happened to her before. */
import type { CowEntered } from '../events/kinds/cow-entered.ts';
import type { Event, Life } from './big-herd-life.ts';

const GESTATION = 283;

export const enteredAs = ({
  life,
  before,
  dateOf,
  group,
}: {
  readonly life: Life;
  readonly before: readonly Event[];
  readonly dateOf: (day: number) => string;
  /** Where she stands when nothing has said so. */
  readonly group: string;
}): CowEntered => {
  const dayOf = (type: Event['type']): number | undefined => before.findLast((event) => event.type === type)?.day;
  const calved = dayOf('calving');
  const common = { officialId: life.officialId, milkHoldUntil: 'none', meatHoldUntil: 'none' };
  if (calved === undefined) return { ...common, group: 'Close-up', lactation: life.lactation - 1 };
  const since = before.filter(({ day }) => day >= calved);
  const last = (type: Event['type']) => since.findLast((event) => event.type === type);
  const served = last('service')?.day;
  const checked = fieldOf(last('pregnancy-check'), 'result') === 'pregnant';
  const dry = last('dry-off');
  const product = fieldOf(dry, 'product');
  const placed = since.findLast((event) => groupOf(event) !== undefined);
  const lactation = life.lactation - 1 + before.filter(({ type }) => type === 'calving').length;
  return {
    ...common,
    group: groupOf(placed) ?? group,
    lactation,
    calvedOn: dateOf(calved),
    ...(served === undefined ? {} : { servedOn: dateOf(served) }),
    ...(served !== undefined && checked ? { dueOn: dateOf(served + GESTATION) } : {}),
    ...(dry === undefined ? {} : { driedOffOn: dateOf(dry.day) }),
    ...(dry === undefined || product === undefined ? {} : { driedOffWith: product }),
  };
};

const groupOf = (event: Event | undefined): string | undefined =>
  event?.type === 'group-move' ? fieldOf(event, 'to') : fieldOf(event, 'group');

const fieldOf = (event: Event | undefined, field: string): string | undefined => {
  if (typeof event?.data !== 'object' || event.data === null) return undefined;
  const value: unknown = Object.entries(event.data).find(([name]) => name === field)?.[1];
  return typeof value === 'string' ? value : undefined;
};
