/**
 * A held cow's reasons as the crew need them: each medicine once, with the quarters and the latest dose of all that was
 * given of it; each other ground once. The office's sheets and `why` keep every reason apart.
 */
import type { HoldCause, HoldReason, Views } from '../projections/views.ts';
import type { Voice } from './speech.ts';
import { sayToCrew } from './words.ts';

export interface Ground {
  readonly cause: HoldCause;
  /** The medicine, then what there is to say about it; or the ground itself. */
  readonly words: readonly string[];
  readonly quarters: readonly string[];
  readonly lastDose: string | null;
}

export const groundsOf = ({ words, format }: Voice, reasons: readonly HoldReason[]): Ground[] => {
  const grounds = new Map<string, Ground>();
  for (const reason of reasons) {
    const medicine = medicineOf(reason);
    const says = sayToCrew(words, reason, format);
    const key = `${reason.cause} ${medicine ?? says}`;
    const have = grounds.get(key) ?? {
      cause: reason.cause,
      words: medicine === undefined ? [] : [medicine],
      quarters: [],
      lastDose: null,
    };
    grounds.set(key, {
      ...have,
      words: says === '' || have.words.includes(says) ? have.words : [...have.words, says],
      quarters: [...new Set([...have.quarters, ...(reason.quarters ?? [])])],
      lastDose: latest(have.lastDose, reason.lastDose),
    });
  }
  return [...grounds.values()];
};

const medicineOf = (reason: HoldReason): string | undefined =>
  reason.key !== 'hold.may-be-her' && 'medicine' in reason.values ? reason.values.medicine : undefined;

const latest = (a: string | null, b: string | undefined): string | null => {
  if (a === null || b === undefined) return b ?? a;
  return Date.parse(b) > Date.parse(a) ? b : a;
};

type MilkTo = Views['farm']['milkTo'];

/**
 * Where the milk of a cow goes: one place, for one cow has one milk. Of several causes the one that may leave residues
 * decides: a treated fresh cow's milk goes where treated milk goes, never to the calves. Null: no place is known, only
 * that it is not the tank.
 */
export const milkPlace = (milkTo: MilkTo, reasons: readonly HoldReason[]): string | null => {
  const causes = new Set(reasons.map((reason) => reason.cause));
  if (causes.has('treated')) return milkTo.treated;
  if (causes.has('dry') || causes.has('unknown')) return null;
  return causes.has('abnormal') ? milkTo.abnormal : milkTo.fresh;
};
