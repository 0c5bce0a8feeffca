/** Names that stand in the entries about any cow that ever was, told by a look at her entries alone and once for each. */
import { z } from 'zod';
import { kept } from '../shared/kept.ts';
import type { Animal } from './animal.ts';
import { columnOf } from './columns.ts';
import type { CowFile } from './cow-file.ts';
import { remembered } from './remembered.ts';

export const namesEver = (
  what: string,
  namesOf: (animal: Animal) => ReadonlySet<string>,
): ((files: readonly CowFile[]) => ReadonlySet<string>) => {
  const columnAt = columnOf<readonly string[]>(what);
  return remembered((files: readonly CowFile[]): ReadonlySet<string> => {
    const column = columnAt(files);
    const names = new Set<string>();
    let last: readonly string[] = [];
    for (let place = 0; place < files.length; place += 1) {
      const file = files[place];
      const hers = column[place] ?? (file === undefined ? [] : sameNames(JSON.stringify([...namesOf(file.animal)])));
      column[place] = hers;
      if (hers === last) continue;
      for (const name of hers) names.add(name);
      last = hers;
    }
    return names;
  });
};

/** One list for all cows with the same names: there are few such lists. */
const sameNames = kept(2_000, (names: string): readonly string[] => z.array(z.string()).parse(JSON.parse(names)));
