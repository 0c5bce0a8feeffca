/** Every figure that the benchmark takes, in the order of the table. */
import { deepFigure } from './figures/deep.ts';
import { deskFigure } from './figures/desk.ts';
import { firstSheetFigure } from './figures/first-sheet.ts';
import { growthFigure } from './figures/growth.ts';
import { issuedFigure } from './figures/issued.ts';
import { memoryFigure } from './figures/memory.ts';
import { oneMoreFigure } from './figures/one-more.ts';
import { pushFigure } from './figures/push.ts';
import { recordFigure } from './figures/record.ts';
import { replayFigure } from './figures/replay.ts';
import { statesFigure } from './figures/states.ts';
import { syncFigure } from './figures/sync.ts';
import { verifyFigure } from './figures/verify.ts';
import { wallFigure } from './figures/wall.ts';
import type { Figure } from './measure.ts';
import type { Setting } from './setting.ts';

export const FIGURES: readonly { readonly name: string; readonly take: (setting: Setting) => Promise<Figure[]> }[] = [
  { name: 'record', take: recordFigure },
  { name: 'push', take: pushFigure },
  { name: 'states', take: statesFigure },
  { name: 'verify', take: verifyFigure },
  { name: 'deep', take: deepFigure },
  { name: 'first-sheet', take: firstSheetFigure },
  { name: 'one-more', take: oneMoreFigure },
  { name: 'issued', take: issuedFigure },
  { name: 'replay', take: replayFigure },
  { name: 'wall', take: wallFigure },
  { name: 'desk', take: deskFigure },
  { name: 'sync', take: syncFigure },
  { name: 'memory', take: memoryFigure },
  { name: 'growth', take: growthFigure },
];
