/** A demo cow: the facts of her life in order, of which the herd list tells those before its day and entries tell the rest. */
import type { CowEntered } from '../events/kinds/cow-entered.ts';
import { addDays, type LocalDay } from '../shared/local-day.ts';
import { HERD_DAY, TODAY } from './calendar.ts';

export type Fact = { readonly day: LocalDay } & (
  | { readonly kind: 'calving'; readonly group?: string; readonly time?: string; readonly calves?: number }
  | { readonly kind: 'service' }
  | { readonly kind: 'check'; readonly result: 'pregnant' | 'twins' | 'empty' }
  | { readonly kind: 'dry-off'; readonly product?: string; readonly group?: string }
  | { readonly kind: 'move'; readonly to: string; readonly time?: string }
  | { readonly kind: 'left'; readonly reason: 'sold-for-beef' | 'sold-for-milking' | 'died' }
);

export interface Cow {
  readonly number: string;
  readonly officialId: string;
  readonly born: LocalDay;
  /** Before the first of her facts. */
  readonly lactation: number;
  readonly facts: readonly Fact[];
  /** Where she stands before her first move. */
  readonly group: string;
  /** Came later than the herd list. */
  readonly came?: { readonly day: LocalDay; readonly from: string };
  /** Said of her in the herd list, or when she came, against what the facts give. */
  readonly stated?: Partial<CowEntered>;
}

/** The days of gestation the farm counts with. */
export const GESTATION = 283;

/** What is written of her on the day she enters the book. */
export const enteredAs = (cow: Cow): CowEntered => {
  const day = cow.came?.day ?? HERD_DAY;
  const before = cow.facts.filter((fact) => fact.day < day);
  const since = <K extends Fact['kind']>(kind: K, from: LocalDay | undefined): LocalDay | undefined =>
    before.filter((fact) => fact.kind === kind && (from === undefined || fact.day >= from)).at(-1)?.day;
  const calvedOn = since('calving', undefined);
  const servedOn = since('service', calvedOn);
  const checked = before.some(
    (fact) => fact.kind === 'check' && fact.result !== 'empty' && servedOn !== undefined && fact.day > servedOn,
  );
  const dried = before.filter((fact) => fact.kind === 'dry-off').at(-1);
  const isDry = dried !== undefined && (calvedOn === undefined || dried.day > calvedOn);
  return {
    group: groupOn(cow, day),
    officialId: cow.officialId,
    born: cow.born,
    lactation: cow.lactation + before.filter((fact) => fact.kind === 'calving').length,
    ...(calvedOn === undefined ? {} : { calvedOn }),
    ...(servedOn === undefined ? {} : { servedOn }),
    ...(checked && servedOn !== undefined ? { dueOn: addDays(servedOn, GESTATION) } : {}),
    ...(isDry
      ? { driedOffOn: dried.day, ...(dried.product === undefined ? {} : { driedOffWith: dried.product }) }
      : {}),
    milkHoldUntil: 'none',
    meatHoldUntil: 'none',
    ...(cow.came === undefined ? {} : { from: cow.came.from }),
    ...cow.stated,
  };
};

/** What of her is told by entries of their own. */
export const factsInBook = (cow: Cow): readonly Fact[] =>
  cow.facts.filter((fact) => fact.day >= (cow.came?.day ?? HERD_DAY) && fact.day <= TODAY);

const groupOn = (cow: Cow, day: LocalDay): string =>
  cow.facts.reduce((group, fact) => {
    if (fact.day >= day) return group;
    if (fact.kind === 'move') return fact.to;
    if (fact.kind === 'calving' || fact.kind === 'dry-off') return fact.group ?? group;
    return group;
  }, cow.group);

/** 999 stands for no country and no maker: a number of the demo belongs to no animal. */
export const officialOf = (serial: number): string => `999000${String(serial).padStart(9, '0')}`;
