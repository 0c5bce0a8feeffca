/** Another book says whose it is before it passes anything on. A book without a farm takes the farm of the first. */
import type { Book } from '../../events/book.ts';
import { RequestProblem } from './problem.ts';

export const meetBook = (book: Book, request: Request): void => {
  const farm = request.headers.get('byrebook-farm') ?? '';
  const from = request.headers.get('byrebook-book') ?? '';
  if (!/^[\w-]{1,100}$/.test(farm) || !/^[\w-]{1,100}$/.test(from)) {
    throw new RequestProblem(
      'not-valid',
      'A book says its farm and its own id in Byrebook-Farm and Byrebook-Book; nothing was taken',
      { parameter: 'Byrebook-Farm' },
    );
  }
  if (from === book.bookId) {
    throw new RequestProblem(
      'other-farm',
      'This is the same book twice: a copy of a file is not another book. On the copy, run new-key first; nothing was taken',
    );
  }
  if (book.farmId === null) book.adoptFarm(farm);
  else if (book.farmId !== farm) {
    throw new RequestProblem(
      'other-farm',
      `This is the book of farm ${book.farmId}, yours is of ${farm}; nothing was taken`,
    );
  }
};
