/** The entry that fits what stands open, beside settling it in words: which form to open, and when it is the right one. */
import type { EntryType } from '../../../events/kinds.ts';
import type { Because } from '../../../projections/because.ts';
import type { Sentence } from '../say.tsx';
import { writePath } from './open-entries.tsx';
import { numbersIn } from './open-items.ts';

export interface Way {
  readonly path: string;
  readonly words: Sentence;
  /** The kind that it records, for the roles that may; undefined for a page. */
  readonly type: EntryType | undefined;
}

/** In the order in which they are to be tried. */
export const waysFor = (because: Because): readonly Way[] => {
  const [cow] = numbersIn(because);
  const write = (type: EntryType, words: Sentence, number: string | undefined = cow): Way => ({
    path: writePath(type, number),
    words,
    type,
  });
  const page = (path: string, words: Sentence): Way => ({ path, words, type: undefined });
  switch (because.key) {
    case 'doubt.dose-not-recorded':
      return [
        write('treatment', 'It was given: write the dose down'),
        write('course-ended', 'It was left out: end the course'),
      ];
    case 'doubt.milk-not-stated':
      return [
        write('calving', 'She is in milk: write her calving down'),
        write('dry-off', 'She is dry: write her dry-off down'),
      ];
    case 'doubt.both-still-wanted':
      return [write('course-ended', 'One is enough: end the course')];
    case 'doubt.calved-in-milk':
      return [write('dry-off', 'A dry-off was not written down: write it down')];
    case 'doubt.among-dry':
      return [
        write('dry-off', 'She is dry: write her dry-off down'),
        write('group-move', 'She is in milk: move her back'),
      ];
    case 'doubt.past-due':
      return [
        write('calving', 'She has calved: write it down'),
        write('pregnancy-check', 'She is not in calf: write the check down'),
      ];
    case 'doubt.head-count':
      return [
        write('head-count', 'Count again', undefined),
        write('group-move', 'A move was not written down', undefined),
      ];
    case 'doubt.two-groups':
    case 'doubt.unknown-group':
      return [write('group-move', 'Say where she is')];
    case 'doubt.sort-several-places':
      return [write('sort-done', 'She was sorted: write it down')];
    case 'doubt.number-in-use':
      return [write('number-changed', 'Give one of them another number')];
    case 'doubt.struck-unplaced':
      return [write('treatment', 'Another cow had it: write it down for her', undefined)];
    case 'doubt.vet-time-unplaced':
    case 'doubt.vet-time-elsewhere':
      return [write('vet-hold-time', 'Enter the time for the right treatment')];
    case 'doubt.retired-medicine':
    case 'doubt.two-labels':
      return [page('/medicines', 'Look at the medicines')];
    case 'doubt.two-set-ups':
      return [page('/farm', 'Look at how the farm is set up')];
    case 'doubt.unknown-language':
      return [page('/farm', 'Choose another language')];
    case 'alert.late-news':
      return [
        ...(because.values.phase === 'before'
          ? [page(`/milking/${because.values.milking}`, 'Issue the sheets again')]
          : []),
        write('residue-test', 'Tested: write the result down'),
        write('tank-collection', 'Collected: write it down', undefined),
      ];
    case 'alert.late-unplaced':
      return [
        ...(because.values.phase === 'before'
          ? [page(`/milking/${because.values.milking}`, 'Issue the sheets again')]
          : []),
        write('residue-test', 'Tested: write the result down', undefined),
        write('tank-collection', 'Collected: write it down', undefined),
      ];
    case 'alert.no-sheet':
    case 'alert.tank-positive':
      return [
        write('residue-test', 'Tested: write the result down', undefined),
        write('tank-collection', 'Collected: write it down', undefined),
      ];
    case 'alert.left-on-hold':
      return [page(`/cow/${encodeURIComponent(because.values.cow)}`, 'Her page, for what the buyer must know')];
    default:
      return [];
  }
};
