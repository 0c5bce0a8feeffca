/**
 * Sheets as PDF. The same view, marks and program give the same bytes, in any process on any day: with one lock file,
 * one Node and one set of time-zone data. The hash of the rows stands in the document's keywords, and so in its file id.
 */
import { SHEET_NAMES, type SheetName, type Views } from '../projections/views.ts';
import { canonicalJson, sha256 } from '../shared/fingerprint.ts';
import { beefHold } from './beef-hold.ts';
import { counts } from './counts.ts';
import { dryOff } from './dry-off.ts';
import { type Frame, frameOf, type PaperMarks } from './frame.ts';
import { freshMoves } from './fresh-moves.ts';
import { openInk } from './ink.ts';
import { milkHold } from './milk-hold.ts';
import { milkingPlan } from './milking-plan.ts';
import { office } from './office.ts';
import { type PageOfPieces, type Piece, paginate } from './pages.ts';
import type { Setting } from './parts.ts';
import { PAPERS } from './sizes.ts';
import { sort } from './sort.ts';
import { type Speech, speeches } from './speech.ts';
import type { Labels } from './words/dictionary.ts';

export type { PaperMarks } from './frame.ts';

export type PrintedName = SheetName | 'office';

interface Recipe {
  readonly title: (labels: Labels) => string;
  readonly pieces: (setting: Setting) => Piece[];
  /** The rows that the sheet says, for their hash. */
  readonly content: (views: Views) => unknown;
}

const RECIPES: Readonly<Record<PrintedName | 'wall', Recipe>> = {
  'milk-hold': recipe('milk-hold', (labels) => labels.milkHold, milkHold),
  'dry-off': recipe('dry-off', (labels) => labels.dryOff, dryOff),
  'fresh-moves': recipe('fresh-moves', (labels) => labels.freshMoves, freshMoves),
  sort: recipe('sort', (labels) => labels.sort, sort),
  counts: recipe('counts', (labels) => labels.counts, counts),
  'milking-plan': recipe('milking-plan', (labels) => labels.plan, milkingPlan),
  'beef-hold': recipe('beef-hold', (labels) => labels.beefHold, beefHold),
  office: {
    title: (labels) => labels.office,
    pieces: office,
    content: ({ alerts, doubts }) => ({ alerts, doubts }),
  },
  wall: {
    title: (labels) => labels.wall,
    pieces: (setting) => [...milkHold(setting), ...milkingPlan(setting)],
    content: ({ sheets }) => ({ 'milk-hold': sheets['milk-hold'], 'milking-plan': sheets['milking-plan'] }),
  },
};

function recipe(name: SheetName, title: Recipe['title'], pieces: Recipe['pieces']): Recipe {
  return { title, pieces, content: (views) => views.sheets[name] };
}

/** Everything that can be printed by itself. */
export const PRINTED_NAMES: readonly PrintedName[] = [...SHEET_NAMES, 'office'];

/** One sheet, in each pair of the farm's languages. */
export const renderSheet = (name: PrintedName, views: Views, marks: PaperMarks): Promise<Uint8Array> =>
  render(RECIPES[name], views, marks);

/** What hangs in the parlour, in one document: the milk hold with everything on it, then the plan of the milking. */
export const renderWall = (views: Views, marks: PaperMarks): Promise<Uint8Array> => render(RECIPES.wall, views, marks);

const render = async (made: Recipe, views: Views, marks: PaperMarks): Promise<Uint8Array> => {
  const paper = PAPERS[views.farm.paper];
  const sets = speeches(views).map((speech) => laidOut(made, views, marks, speech));
  const first = sets[0];
  if (first === undefined) throw new Error('A sheet has at least one language');
  const ink = openInk(paper, {
    title: `${made.title(first.speech.voices[0]?.labels ?? missing())}, ${views.farm.name}, ${views.milking.id}`,
    language: first.speech.locale,
    subject: [
      marks.ref ?? 'not issued',
      `position ${marks.position}`,
      `root ${marks.root}`,
      `book ${marks.bookId}`,
    ].join(', '),
    keywords: `content ${sha256(canonicalJson(made.content(views)))}`,
    made: new Date(marks.printedAt),
  });
  const pages = sets.reduce((sum, set) => sum + set.pages.length, 0);
  let page = 0;
  for (const set of sets) {
    const lines = set.pages.reduce((sum, each) => sum + each.lines, 0);
    for (const each of set.pages) {
      page += 1;
      ink.page();
      set.frame.draw(ink, { first: each === set.pages[0], page, pages, linesHere: each.lines, lines });
      for (const { piece, y, repeated } of each.placed) {
        const draw = (): void => piece.draw(ink, set.frame.left, set.frame.top + y);
        if (repeated) ink.furniture(draw);
        else draw();
      }
    }
  }
  return ink.finish();
};

const missing = (): never => {
  throw new Error('A sheet has at least one language');
};

const laidOut = (
  made: Recipe,
  views: Views,
  marks: PaperMarks,
  speech: Speech,
): { readonly speech: Speech; readonly frame: Frame; readonly pages: readonly PageOfPieces[] } => {
  const frame = frameOf({ title: made.title, paper: PAPERS[views.farm.paper], views, marks, speech });
  const least = Math.min(frame.bodyHeight(0), frame.bodyHeight(1));
  const pieces = made.pieces({ views, speech, width: frame.width, bodyHeight: least });
  return { speech, frame, pages: paginate(pieces, frame.bodyHeight) };
};
