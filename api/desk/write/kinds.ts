/** What can be written down at the desk, in the order in which it is offered. */
import type { Written } from './building.ts';
import { HERD_KINDS } from './herd-kinds.ts';
import { MILK_KINDS } from './milk-kinds.ts';
import { PARLOUR_KINDS } from './parlour-kinds.ts';

export const WRITTEN: readonly Written[] = [...MILK_KINDS, ...HERD_KINDS, ...PARLOUR_KINDS];

export const writtenFor = (type: string): Written | undefined => WRITTEN.find((each) => each.type === type);
