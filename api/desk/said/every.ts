/** Every sentence of the desk in every language: the one place that knows the tables of all rooms. */

import { beginSaid } from '../begin/begin-said.ts';
import { cowHistorySaid } from '../cow/cow-history-said.ts';
import { cowNumberSaid } from '../cow/cow-number-said.ts';
import { cowSaid } from '../cow/cow-said.ts';
import { farmChangeSaid } from '../farm/farm-change-said.ts';
import { farmEffectSaid } from '../farm/farm-effect-said.ts';
import { farmFormMoreSaid } from '../farm/farm-form-more-said.ts';
import { farmFormSaid } from '../farm/farm-form-said.ts';
import { farmReadSaid } from '../farm/farm-read-said.ts';
import { farmSaid } from '../farm/farm-said.ts';
import { herdSaid } from '../herd/herd-said.ts';
import { medicineLabelSaid } from '../medicines/medicine-label-said.ts';
import { medicinesSaid } from '../medicines/medicines-said.ts';
import { openHoldsSaid } from '../open/open-holds-said.ts';
import { openSaid } from '../open/open-said.ts';
import { openWaysSaid } from '../open/open-ways-said.ts';
import { paperBookSaid } from '../paper/paper-book-said.ts';
import { paperHandSaid } from '../paper/paper-hand-said.ts';
import { paperLinesSaid } from '../paper/paper-lines-said.ts';
import { paperReadSaid } from '../paper/paper-read-said.ts';
import { paperSaid } from '../paper/paper-said.ts';
import { paperTakeSaid } from '../paper/paper-take-said.ts';
import { recordsSaid } from '../records/records-said.ts';
import { recordsThenSaid } from '../records/records-then-said.ts';
import { writeKindsSaid } from '../write/write-kinds-said.ts';
import { writeSaid } from '../write/write-said.ts';
import { formSaid } from './form-said.ts';
import { frameSaid } from './frame-said.ts';
import { milkingSaid } from './milking-said.ts';
import { problemSaid } from './problem-said.ts';
import type { InOthers, Sentences } from './sentences.ts';
import { sheetsSaid } from './sheets-said.ts';
import { signInSaid } from './sign-in-said.ts';
import { wordsSaid } from './words-said.ts';

export const TABLES = {
  beginSaid,
  cowHistorySaid,
  cowNumberSaid,
  cowSaid,
  farmChangeSaid,
  farmEffectSaid,
  farmFormMoreSaid,
  farmFormSaid,
  farmReadSaid,
  farmSaid,
  formSaid,
  frameSaid,
  herdSaid,
  medicineLabelSaid,
  medicinesSaid,
  milkingSaid,
  openHoldsSaid,
  openSaid,
  openWaysSaid,
  paperBookSaid,
  paperHandSaid,
  paperLinesSaid,
  paperReadSaid,
  paperSaid,
  paperTakeSaid,
  problemSaid,
  recordsSaid,
  recordsThenSaid,
  sheetsSaid,
  signInSaid,
  wordsSaid,
  writeKindsSaid,
  writeSaid,
} as const satisfies Readonly<Record<string, Sentences>>;

/** A sentence that the desk can say. Any other text is no sentence of the desk, and does not compile. */
export type Sentence = { [T in keyof typeof TABLES]: keyof (typeof TABLES)[T] }[keyof typeof TABLES];

/** The same in the other languages. */
export const inOthers = (sentence: Sentence): InOthers | undefined =>
  Object.values<Sentences>(TABLES).find((table) => Object.hasOwn(table, sentence))?.[sentence];
