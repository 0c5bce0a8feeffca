/** Every page of the desk. */
import type { DeskPage } from './ask.ts';
import { firstRunPages } from './begin/begin-pages.ts';
import { cowPages } from './cow/cow.tsx';
import { farmPages } from './farm/farm.tsx';
import { herdPages } from './herd/herd.tsx';
import { issuedPages } from './issued.tsx';
import { medicinePages } from './medicines/medicine-pages.ts';
import { milkingPages } from './milking.tsx';
import { openPages } from './open/open.tsx';
import { paperPages } from './paper/pages.tsx';
import { recordsPages } from './records/records.tsx';
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
