/** What the record keeper's papers are drawn from in these tests: a farm's entries, known and asked about at a moment. */

import type { Aside } from '../../events/entry.ts';
import { type KeeperMarks, type KeeperPaper, keeperVoice, renderKeeper } from '../../print/keeper-paper.ts';
import type { Voice } from '../../print/speech.ts';
import { type Known, know } from '../../projections/know.ts';
import type { Moment } from '../../projections/moment.ts';
import { momentOf } from '../../projections/views-at.ts';
import { nextMilking } from '../../projections/window.ts';
import { mustBeInstant } from '../../shared/instant.ts';
import { entriesOf, type Saying } from '../published/paper-farm.ts';
import { MARKS } from './printed.ts';
import { type ReadPdf, readPdf } from './read-pdf.ts';

export const KEEPER_MARKS: KeeperMarks = {
  ...MARKS,
  farm: 'Windmill Dairy',
  timeZone: 'UTC',
  paper: 'A4',
};

export interface Asked {
  readonly known: Known;
  readonly moment: Moment;
  readonly entries: ReturnType<typeof entriesOf>;
}

export const asked = (
  sayings: readonly Saying[],
  now = '2026-03-14T15:40:00Z',
  asides: readonly Aside[] = [],
): Asked => {
  const entries = entriesOf(sayings);
  const known = know(entries, asides);
  const asOf = mustBeInstant(now);
  const { schedule } = known.farm;
  const milking = schedule === undefined ? undefined : nextMilking(known, schedule, asOf);
  const moment = milking && momentOf(known, { milking, asOf, position: entries.length });
  if (moment === undefined) throw new Error('The farm of a test is set up');
  return { known, moment, entries };
};

export const drawn = (
  make: (voice: Voice) => KeeperPaper,
  language = 'en',
  marks: KeeperMarks = KEEPER_MARKS,
): Promise<Uint8Array> => {
  const voice = keeperVoice(language, marks.timeZone);
  return renderKeeper(make(voice), voice, marks);
};

export const read = async (
  make: (voice: Voice) => KeeperPaper,
  language = 'en',
  marks: KeeperMarks = KEEPER_MARKS,
): Promise<ReadPdf> => readPdf(await drawn(make, language, marks));

/** The text of a page or paper without its line breaks, as far as columns let one read it: words, each once a place. */
export const wordsOf = ({ pages }: ReadPdf): string =>
  pages
    .map(({ boxes }) => boxes.map(({ text }) => text).join(' '))
    .join(' ')
    .replace(/\s+/g, ' ');
