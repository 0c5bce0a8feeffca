/** A line that cuts, delays, repeats and reorders requests, by dice with a fixed seed: the two books still come to the same. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { aServer } from '../server/a-server.ts';
import { aProxy, type Mischief } from './a-proxy.ts';
import { aLaptop, sayDoses, setOf, syncWith } from './two-books.ts';

const mischief: fc.Arbitrary<Mischief> = fc.oneof(
  { weight: 4, arbitrary: fc.constant<Mischief>('pass') },
  { weight: 4, arbitrary: fc.constantFrom<Mischief[]>('lose', 'lose-answer', 'cut', 'half', 'repeat', 'late') },
  { weight: 1, arbitrary: fc.integer({ min: 1, max: 40 }).map((wait) => ({ wait })) },
);

test('whatever the line does, books that go on trying hold the same set, each entry once', async () => {
  const done = new Set<string>();
  await fc.assert(
    fc.asyncProperty(
      fc.infiniteStream(mischief),
      fc.array(fc.tuple(fc.integer({ min: 0, max: 700 }), fc.integer({ min: 0, max: 700 })), {
        minLength: 2,
        maxLength: 4,
      }),
      async (dice, rounds) => {
        const server = await aServer();
        const proxy = await aProxy(server.url);
        const { book } = aLaptop();
        let entries = 8;
        proxy.play(() => {
          const next = dice.next().value ?? 'pass';
          done.add(typeof next === 'string' ? next : 'wait');
          return next;
        });
        await syncWith(book, server, { url: proxy.url }).catch(() => undefined);
        for (const [index, [here, there]] of rounds.entries()) {
          sayDoses(book, `barn-${index}`, here);
          sayDoses(server.book, `office-${index}`, there);
          entries += here + there;
          await syncWith(book, server, { url: proxy.url }).catch(() => undefined);
        }
        let tries = 0;
        for (let same = false; !same && tries < 50; tries += 1) {
          same = await syncWith(book, server, { url: proxy.url }).then(
            (synced) => synced.same,
            () => false,
          );
        }
        expect(tries).toBeLessThan(50);
        expect(book.head().position).toBe(entries);
        expect(setOf(book)).toEqual(setOf(server.book));
        expect([book.verify().ok, server.book.verify().ok]).toEqual([true, true]);
      },
    ),
    { seed: 20, numRuns: 10, endOnFailure: true },
  );
  expect([...done].sort()).toEqual(['cut', 'half', 'late', 'lose', 'lose-answer', 'pass', 'repeat', 'wait']);
});
