/** Dice with a seed: the same seed throws the same. The seed of a run is printed; BYREBOOK_SEED sets it. */
import crypto from 'node:crypto';

export interface Dice {
  readonly seed: number;
  /** From 0 up to 1, which is never thrown. */
  readonly part: () => number;
  /** A whole number from `least` to `most`, both included. */
  readonly whole: (least: number, most: number) => number;
  readonly chance: (of: number) => boolean;
  readonly oneOf: <T>(list: readonly T[]) => T;
}

/** The seed of this run, said once on standard output. */
export const seedOf = (title: string): number => {
  const seed = Number(process.env.BYREBOOK_SEED ?? crypto.randomInt(2 ** 31));
  process.stdout.write(`${title}: BYREBOOK_SEED=${seed}\n`);
  return seed;
};

/** Xorshift of 32 bits: enough to choose where to kill and what to break. */
export const diceOf = (seed: number): Dice => {
  let state = (seed ^ 0x9e3779b9) >>> 0 || 1;
  const part = (): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return state / 2 ** 32;
  };
  const whole = (least: number, most: number): number => least + Math.floor(part() * (most - least + 1));
  return {
    seed,
    part,
    whole,
    chance: (of) => part() < of,
    oneOf: (list) => {
      const chosen = list[whole(0, list.length - 1)];
      if (chosen === undefined) throw new Error('There is nothing to choose from');
      return chosen;
    },
  };
};
