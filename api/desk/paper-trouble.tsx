/** Sheets that come by the clock and did not get to the wall, on the first page until a later try works. */
import type { Format } from '../../print/words/format.ts';
import { instantText } from '../../shared/instant.ts';
import type { PaperTrouble } from '../server/paper-troubles.ts';
import { say } from './say.tsx';

export const PaperTroubleSaid = ({ troubles, format }: { troubles: readonly PaperTrouble[]; format: Format }) =>
  troubles.map((trouble) => (
    <p class="problem" role="alert">
      {sentenceOf(trouble, format)} {say('It is tried again. What the computer said: {why}', { why: trouble.why })}
    </p>
  ));

const sentenceOf = ({ what, where, ref = '', milking, at }: PaperTrouble, format: Format): string => {
  const time = format.time(instantText(at));
  switch (what) {
    case 'printer':
      return say('The printer {printer} did not take the set {ref} ({time}): it hangs nowhere yet.', {
        printer: where,
        ref,
        time,
      });
    case 'folder':
      return say('The set {ref} could not be laid into the folder {folder} ({time}): it hangs nowhere yet.', {
        ref,
        folder: where,
        time,
      });
    case 'set':
      return say('The sheets for {milking} could not be issued by the clock ({time}).', {
        milking: format.milking(milking),
        time,
      });
  }
};
