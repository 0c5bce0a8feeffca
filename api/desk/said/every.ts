/** Every sentence of the desk in every language: the one place that knows the tables of all rooms. */
import { cowHistorySaid } from '../cow/cow-history-said.ts';
import { cowNumberSaid } from '../cow/cow-number-said.ts';
import { cowSaid } from '../cow/cow-said.ts';
import { herdSaid } from '../herd/herd-said.ts';
import { openHoldsSaid } from '../open/open-holds-said.ts';
import { openSaid } from '../open/open-said.ts';
import { openWaysSaid } from '../open/open-ways-said.ts';
import { recordsSaid } from '../records/records-said.ts';
import { recordsThenSaid } from '../records/records-then-said.ts';
import { formSaid } from './form-said.ts';
import { frameSaid } from './frame-said.ts';
import { milkingSaid } from './milking-said.ts';
import { problemSaid } from './problem-said.ts';
import type { InOthers, Sentences } from './sentences.ts';
import { sheetsSaid } from './sheets-said.ts';
import { signInSaid } from './sign-in-said.ts';
import { wordsSaid } from './words-said.ts';

export const TABLES = {
  cowHistorySaid,
  cowNumberSaid,
  cowSaid,
  formSaid,
  frameSaid,
  herdSaid,
  milkingSaid,
  openHoldsSaid,
  openSaid,
  openWaysSaid,
  problemSaid,
  recordsSaid,
  recordsThenSaid,
  sheetsSaid,
  signInSaid,
  wordsSaid,
} as const satisfies Readonly<Record<string, Sentences>>;

/** A sentence that the desk can say. Any other text is no sentence of the desk, and does not compile. */
export type Sentence = { [T in keyof typeof TABLES]: keyof (typeof TABLES)[T] }[keyof typeof TABLES];

/** The same in the other languages. */
export const inOthers = (sentence: Sentence): InOthers | undefined =>
  Object.values<Sentences>(TABLES).find((table) => Object.hasOwn(table, sentence))?.[sentence];
