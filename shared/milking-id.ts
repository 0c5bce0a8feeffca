/** One milking of one farm: the farm's local date and the schedule's name for it, `2026-03-14/afternoon`. */
import { type LocalDay, parseLocalDay } from './local-day.ts';
import { accepted, type Result, refused } from './refusal.ts';

declare const milkingIdBrand: unique symbol;
export type MilkingId = string & { readonly [milkingIdBrand]: true };

/** As long as a farm may name a milking; one line, without the slash that parts it from the date. */
const NAME = /^[^/\p{C}\p{Zl}\p{Zp}]{1,80}$/u;

export const milkingId = (day: LocalDay, name: string): MilkingId => `${day}/${name}` as MilkingId;

export const parseMilkingId = (text: string): Result<MilkingId> => {
  const slash = text.indexOf('/');
  const day = parseLocalDay(text.slice(0, Math.max(0, slash)));
  if (slash < 0 || !day.ok || !NAME.test(text.slice(slash + 1))) {
    return refused(`"${text.slice(0, 60)}" is not a milking; write it like 2026-03-14/afternoon`);
  }
  return accepted(text as MilkingId);
};

export const dayOfMilking = (id: MilkingId): LocalDay => id.slice(0, 10) as LocalDay;
export const nameOfMilking = (id: MilkingId): string => id.slice(11);
