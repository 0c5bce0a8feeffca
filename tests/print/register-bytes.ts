/** One of each of the record keeper's papers, for its bytes: drawn here and in another process they are the same. */
import { buyerPaper } from '../../print/buyer.ts';
import { historyPaper } from '../../print/history.ts';
import { registerPaper } from '../../print/register.ts';
import { cowHistory } from '../../projections/history.ts';
import { leavingOfCow } from '../../projections/leaving.ts';
import { wholeRegister } from '../../projections/whole-register.ts';
import { sha256 } from '../../shared/fingerprint.ts';
import { CUPBOARD, dose, farm, milker } from '../projections/evening.ts';
import { asked, drawn } from './keeper-farm.ts';

export const paperHashes = async (): Promise<string[]> => {
  const { known, moment, entries } = asked([farm(), ...CUPBOARD, milker('101'), dose('101', '2026-03-13T05:30:00Z')]);
  const [file] = known.files;
  if (file === undefined) throw new Error('The cow is on the book');
  const papers = [
    await drawn((voice) => registerPaper(wholeRegister(known, moment), voice), 'uk'),
    await drawn((voice) => historyPaper(cowHistory(known, entries, [], '101'), () => undefined, voice), 'uk'),
    await drawn((voice) => buyerPaper(leavingOfCow(known, moment, file, []), voice), 'uk'),
  ];
  return papers.map((bytes) => sha256(bytes));
};
