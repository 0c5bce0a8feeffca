/** The pages of the first run. */
import type { DeskPage } from '../ask.ts';
import { beginPages } from './begin.tsx';
import { beginHerdPages } from './begin-herd.tsx';
import { beginMedicinePages } from './begin-medicines.tsx';

export const firstRunPages: readonly DeskPage[] = [...beginPages, ...beginMedicinePages, ...beginHerdPages];
