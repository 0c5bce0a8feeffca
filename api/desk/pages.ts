/** Every page of the desk. */
import type { DeskPage } from './ask.ts';
import { issuedPages } from './issued.tsx';
import { milkingPages } from './milking.tsx';

export const DESK_PAGES: readonly DeskPage[] = [...milkingPages, ...issuedPages];
