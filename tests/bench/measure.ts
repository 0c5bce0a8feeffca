/**
 * How a figure is taken: what the product does and what the bare baseline does, turn about in the same process, so that a
 * busy machine bears on both alike; the medians of several turns, and their ratio.
 */
import { steadyMilliseconds } from '../../shared/clock.ts';

export interface Figure {
  readonly figure: string;
  /** What it was measured on, such as "5,000 cows, 10 years, 1,580,000 entries". */
  readonly on: string;
  readonly product: string;
  readonly baseline: string;
  /** Null where there is nothing to compare with, or it was skipped. */
  readonly ratio: number | null;
  /** What the ratio is meant to be, in words; empty where nothing was set. */
  readonly target: string;
  /** Whether the target was met; null where none was set. */
  readonly met: boolean | null;
  readonly note: string;
}

export type Work = () => unknown;

/** Milliseconds that a piece of work takes. */
export const millisecondsOf = async (work: Work): Promise<number> => {
  const began = steadyMilliseconds();
  await work();
  return steadyMilliseconds() - began;
};

export const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const [low = 0, high = 0] = [sorted[sorted.length % 2 === 0 ? middle - 1 : middle], sorted[middle]];
  return (low + high) / 2;
};

/** Medians of both, in milliseconds. Each piece of work may give milliseconds of its own, where it has things to set up. */
export const sideBySide = async (
  runs: number,
  product: () => Promise<number>,
  baseline: () => Promise<number>,
): Promise<{ product: number; baseline: number }> => {
  const [ours, bare]: [number[], number[]] = [[], []];
  for (let run = 0; run < runs; run += 1) {
    // Who goes first changes, so that neither always finds the file warm.
    if (run % 2 === 0) bare.push(await baseline());
    ours.push(await product());
    if (run % 2 === 1) bare.push(await baseline());
  }
  return { product: median(ours), baseline: median(bare) };
};

export const timed =
  (work: Work): (() => Promise<number>) =>
  () =>
    millisecondsOf(work);

/** A figure of time: the ratio is the product's over the baseline's, and at most `most` is wished for. */
export const timeFigure = (
  about: Pick<Figure, 'figure' | 'on'> & { readonly against: string; readonly most?: number; readonly note?: string },
  { product, baseline }: { product: number; baseline: number },
): Figure => {
  const ratio = product / baseline;
  return {
    figure: about.figure,
    on: about.on,
    product: spoken(product),
    baseline: `${spoken(baseline)} ${about.against}`,
    ratio,
    target: about.most === undefined ? '' : `at most ${about.most}`,
    met: about.most === undefined ? null : ratio <= about.most,
    note: about.note ?? '',
  };
};

/** A figure of rates: so many in that many milliseconds; the ratio is of the rates, and at least `least` is wished for. */
export const rateFigure = (
  about: Pick<Figure, 'figure' | 'on'> & { readonly against: string; readonly least?: number; readonly note?: string },
  product: { readonly count: number; readonly milliseconds: number },
  baseline: { readonly count: number; readonly milliseconds: number },
): Figure => {
  const [ours, bare] = [rateOf(product), rateOf(baseline)];
  const ratio = ours / bare;
  return {
    figure: about.figure,
    on: about.on,
    product: `${whole(ours)} a second`,
    baseline: `${whole(bare)} a second, ${about.against}`,
    ratio,
    target: about.least === undefined ? '' : `at least ${about.least}`,
    met: about.least === undefined ? null : ratio >= about.least,
    note: about.note ?? '',
  };
};

const rateOf = ({ count, milliseconds }: { count: number; milliseconds: number }): number =>
  (count / milliseconds) * 1_000;

/** A figure of memory: the most there was, in megabytes, beside the same on something smaller. */
export const megabyteFigure = (
  about: Pick<Figure, 'figure' | 'on'> & { readonly against: string },
  { product, baseline }: { product: number; baseline: number },
): Figure => ({
  ...plainFigure(about.figure, about.on, `${Math.round(product)} MB at most`),
  baseline: `${Math.round(baseline)} MB ${about.against}`,
  ratio: product / baseline,
});

/** A figure with nothing beside it. */
export const plainFigure = (figure: string, on: string, product: string, note = ''): Figure => ({
  figure,
  on,
  product,
  baseline: '',
  ratio: null,
  target: '',
  met: null,
  note,
});

export const whole = (value: number): string => Math.round(value).toLocaleString('en');

export const spoken = (milliseconds: number): string =>
  milliseconds >= 10_000
    ? `${(milliseconds / 1_000).toFixed(1)} s`
    : milliseconds >= 100
      ? `${Math.round(milliseconds)} ms`
      : `${milliseconds.toFixed(milliseconds >= 1 ? 1 : 3)} ms`;
