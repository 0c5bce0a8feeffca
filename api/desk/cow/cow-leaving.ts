/** The statement for the buyer of a cow that leaves, as a paper: of the very cow whose page it stands on. */
import { buyerPaper } from '../../../print/buyer.ts';
import { leavingOfCow } from '../../../projections/leaving.ts';
import { momentOf } from '../../../projections/views-at.ts';
import { drawPaper } from '../../command-line/paper-file.ts';
import type { Ask, Desk, DeskPage } from '../ask.ts';
import { atHand } from '../at-hand.ts';
import { SaidProblem } from '../say.tsx';
import { askedOf } from '../who.tsx';

/** `key`: her first `cow-entered`, since a number may mean several cows. */
export const leavingAddress = (number: string, key: string): string =>
  `/cow/${encodeURIComponent(number)}/leaving.pdf?of=${encodeURIComponent(key)}`;

export const leavingPages: readonly DeskPage[] = [
  { method: 'get', path: '/cow/:number/leaving.pdf', right: 'herd', run: (desk, ask) => leavingPaper(desk, ask) },
];

const leavingPaper = async (desk: Desk, { visitor, params, url }: Ask): Promise<Response> => {
  const answer = atHand(desk, visitor, '/herd', undefined)?.answer;
  const moment = answer === undefined ? undefined : momentOf(answer.known, askedOf(answer));
  const file = answer?.known.files.find(({ animal }) => animal.key === url.searchParams.get('of'));
  if (answer === undefined || moment === undefined || file === undefined)
    throw new SaidProblem(
      'not-found',
      'No such cow stands in this book; go to the page of {number} and take it from there',
      {
        number: params.number ?? '',
      },
    );
  const { known, asOf, position, root, views } = answer;
  const made = leavingOfCow(known, moment, file, views.doubts);
  const bytes = await drawPaper(desk.book, { known, asOf, position, root }, undefined, (voice) =>
    buyerPaper(made, voice),
  );
  const name = `leaving-${made.cow.replaceAll(/[^0-9A-Za-z-]/g, '')}.pdf`;
  return new Response(Uint8Array.from(bytes), {
    headers: { 'content-type': 'application/pdf', 'content-disposition': `inline; filename="${name}"` },
  });
};
