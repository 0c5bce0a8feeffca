/** Every page of the desk. */
import type { DeskPage } from './ask.ts';
import { firstRunPages } from './begin-pages.ts';
import { cowPages } from './cow.tsx';
import { farmPages } from './farm.tsx';
import { herdPages } from './herd.tsx';
import { issuedPages } from './issued.tsx';
import { medicinePages } from './medicine-pages.ts';
import { milkingPages } from './milking.tsx';
import { openPages } from './open.tsx';
import { paperPages } from './paper/pages.tsx';
import { recordsPages } from './records.tsx';
import { writePages } from './write/write.tsx';
import { writtenPages } from './write/written.tsx';

export const DESK_PAGES: readonly DeskPage[] = [
  ...milkingPages,
  ...firstRunPages,
  ...farmPages,
  ...medicinePages,
  ...herdPages,
  ...cowPages,
  ...issuedPages,
  ...writtenPages,
  ...writePages,
  ...openPages,
  ...paperPages,
  ...recordsPages,
];
