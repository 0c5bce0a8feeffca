/** The pages about medicines: the list, the labels, the shelf. */
import type { DeskPage } from '../ask.ts';
import { medicineEditPages } from './medicine-edit.tsx';
import { medicineShelfPages } from './medicine-shelf.tsx';
import { medicineListPages } from './medicines.tsx';

export const medicinePages: readonly DeskPage[] = [...medicineListPages, ...medicineEditPages, ...medicineShelfPages];
