/** The register of entry kinds. To add one: a file in `kinds/`, a line here; the compiler names every fold that must answer. */
import type { z } from 'zod';
import { abortion } from './kinds/abortion.ts';
import { bookContinued } from './kinds/book-continued.ts';
import { calving } from './kinds/calving.ts';
import { courseEnded } from './kinds/course-ended.ts';
import { cowEntered } from './kinds/cow-entered.ts';
import { cowLeft } from './kinds/cow-left.ts';
import { dryOff } from './kinds/dry-off.ts';
import { entryStruck } from './kinds/entry-struck.ts';
import { farmSetUp } from './kinds/farm-set-up.ts';
import { groupMove } from './kinds/group-move.ts';
import { headCount } from './kinds/head-count.ts';
import { medicineDisposed } from './kinds/medicine-disposed.ts';
import { medicineListed } from './kinds/medicine-listed.ts';
import { medicineReceived } from './kinds/medicine-received.ts';
import { milkHold } from './kinds/milk-hold.ts';
import { milkHoldLifted } from './kinds/milk-hold-lifted.ts';
import { milkRecord } from './kinds/milk-record.ts';
import { milkingFinished } from './kinds/milking-finished.ts';
import { numberChanged } from './kinds/number-changed.ts';
import { pregnancyCheck } from './kinds/pregnancy-check.ts';
import { residueTest } from './kinds/residue-test.ts';
import { service } from './kinds/service.ts';
import { settled } from './kinds/settled.ts';
import { sheetIssued } from './kinds/sheet-issued.ts';
import { sheetReturned } from './kinds/sheet-returned.ts';
import { sortDone } from './kinds/sort-done.ts';
import { sortRequest } from './kinds/sort-request.ts';
import { tankCollection } from './kinds/tank-collection.ts';
import { treatment } from './kinds/treatment.ts';
import { vetHoldTime } from './kinds/vet-hold-time.ts';

export const KINDS = {
  'farm-set-up': farmSetUp,
  'medicine-listed': medicineListed,
  'medicine-received': medicineReceived,
  'medicine-disposed': medicineDisposed,
  'cow-entered': cowEntered,
  'number-changed': numberChanged,
  'cow-left': cowLeft,
  calving: calving,
  abortion: abortion,
  service: service,
  'pregnancy-check': pregnancyCheck,
  'dry-off': dryOff,
  treatment: treatment,
  'vet-hold-time': vetHoldTime,
  'course-ended': courseEnded,
  'milk-hold': milkHold,
  'milk-hold-lifted': milkHoldLifted,
  'residue-test': residueTest,
  'group-move': groupMove,
  'sort-request': sortRequest,
  'sort-done': sortDone,
  'head-count': headCount,
  'milk-record': milkRecord,
  'milking-finished': milkingFinished,
  'tank-collection': tankCollection,
  'sheet-returned': sheetReturned,
  settled: settled,
  'entry-struck': entryStruck,
  'sheet-issued': sheetIssued,
  'book-continued': bookContinued,
} as const;

export type EntryType = keyof typeof KINDS;

/** The `data` of one kind. */
export type DataOf<T extends EntryType> = z.infer<(typeof KINDS)[T]['schema']>;

export const ENTRY_TYPES = Object.keys(KINDS) as EntryType[];

export const isEntryType = (text: string): text is EntryType => Object.hasOwn(KINDS, text);
