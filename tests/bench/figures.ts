/** Every figure that the benchmark takes, in the order of the table. */
import { recordFigure } from './figures/record.ts';
import { replayFigure } from './figures/replay.ts';
import { statesFigure } from './figures/states.ts';
import { verifyFigure } from './figures/verify.ts';
import type { Figure } from './measure.ts';
import type { Setting } from './setting.ts';

export const FIGURES: readonly { readonly name: string; readonly take: (setting: Setting) => Promise<Figure[]> }[] = [
  { name: 'record', take: recordFigure },
  { name: 'states', take: statesFigure },
  { name: 'verify', take: verifyFigure },
  { name: 'replay', take: replayFigure },
];
