/** Words in Latin letters on a page drawn in Ukrainian that neither the book nor the marked English explains: sentences left in English. */
import type { ADesk, Seen } from './a-desk.ts';

/** Same in every language: units, rules, formats, the program's name. */
const EVERYWHERE = /^(byrebook|kg|ml|mg|iu|pdf|csv|json|qr|utc|h|[Rr]-?\d+|[a-f\d-]{8,})$/i;

/** `known`: words that stand there for a reason that the test says. */
export const leftInEnglish = (
  desk: Pick<ADesk, 'book'>,
  page: Seen,
  known: readonly string[] = [],
): readonly string[] => {
  const written = new Set(
    wordsOf(
      desk.book
        .rows(0, 10_000)
        .map(({ entry }) => entry)
        .join(' '),
    ).map(lower),
  );
  for (const { name } of desk.book.devices.list()) for (const word of wordsOf(name)) written.add(lower(word));
  for (const word of known.flatMap(wordsOf)) written.add(lower(word));
  const { document } = page;
  const texts: string[] = [document.title];
  const read = (element: Element): void => {
    const name = element.tagName.toLowerCase();
    if (name === 'head' || name === 'style' || (name !== 'html' && element.hasAttribute('lang'))) return;
    for (const attribute of ['aria-label', 'title', 'alt', 'placeholder', 'data-label'])
      texts.push(element.getAttribute(attribute) ?? '');
    for (const node of element.childNodes) if (node.nodeType === 3) texts.push(node.textContent ?? '');
    for (const child of element.children) read(child);
  };
  read(document.documentElement);
  const words = texts.flatMap((text) =>
    wordsOf(text).map((word) => ({ word, text: text.replace(/\s+/g, ' ').trim() })),
  );
  return [
    ...new Set(
      words
        .filter(({ word }) => !EVERYWHERE.test(word) && !written.has(lower(word)))
        .map(({ word, text }) => (word === text ? word : `${word}: ${text}`)),
    ),
  ];
};

const wordsOf = (text: string): readonly string[] => text.match(/[A-Za-z][\w-]+/g) ?? [];
const lower = (text: string): string => text.toLowerCase();
