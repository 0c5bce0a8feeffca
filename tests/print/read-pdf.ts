/** A PDF as an independent reader sees it: every stretch of text with its place, size and face. */
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

export interface TextBox {
  readonly text: string;
  /** From the left edge and from the top edge to the baseline, in points. */
  readonly x: number;
  readonly baseline: number;
  readonly width: number;
  readonly size: number;
  readonly font: string;
}

export interface ReadPage {
  readonly width: number;
  readonly height: number;
  readonly boxes: readonly TextBox[];
  /** Text of the page in reading order, words of one line joined. */
  readonly lines: readonly string[];
}

export interface ReadPdf {
  readonly pages: readonly ReadPage[];
  readonly text: string;
  readonly info: Readonly<Record<string, unknown>>;
  readonly language: string | null;
  readonly tagged: boolean;
}

export const readPdf = async (bytes: Uint8Array): Promise<ReadPdf> => {
  const task = getDocument({ data: new Uint8Array(bytes), useSystemFonts: false, verbosity: 0 });
  const document = await task.promise;
  const { info } = await document.getMetadata();
  const facts: Readonly<Record<string, unknown>> = Object.fromEntries(Object.entries(info));
  const pages: ReadPage[] = [];
  for (let number = 1; number <= document.numPages; number += 1) {
    const page = await document.getPage(number);
    const [, , width = 0, height = 0] = page.view;
    await page.getOperatorList();
    const content = await page.getTextContent();
    const boxes: TextBox[] = [];
    for (const item of content.items) {
      if (!('str' in item) || item.str.trim() === '') continue;
      const [a = 0, b = 0, , , x = 0, y = 0] = item.transform.map(Number);
      const font = page.commonObjs.get(item.fontName)?.name;
      boxes.push({
        text: item.str,
        x,
        baseline: height - y,
        width: item.width,
        size: Math.hypot(a, b),
        font: typeof font === 'string' ? font.replace(/^[A-Z]{6}\+/, '') : '',
      });
    }
    pages.push({ width, height, boxes, lines: linesOf(boxes) });
    page.cleanup();
  }
  const mark = await document.getMarkInfo();
  const read = {
    pages,
    text: pages.flatMap((page) => page.lines).join('\n'),
    info: facts,
    language: typeof facts.Language === 'string' ? facts.Language : null,
    tagged: mark?.Marked === true,
  };
  await task.destroy();
  return read;
};

/** Boxes of one baseline, left to right; a gap as wide as a space is one. */
const linesOf = (boxes: readonly TextBox[]): string[] => {
  const byLine = new Map<number, TextBox[]>();
  for (const box of boxes) {
    const key = Math.round(box.baseline * 2);
    byLine.set(key, [...(byLine.get(key) ?? []), box]);
  }
  return [...byLine.entries()]
    .sort(([a], [b]) => a - b)
    .map(([, line]) => {
      const sorted = [...line].sort((a, b) => a.x - b.x);
      return sorted
        .map((box, index) => {
          const before = sorted[index - 1];
          const gap = before === undefined ? 0 : box.x - (before.x + before.width);
          return `${gap > box.size * 0.15 && before?.text.endsWith(' ') === false ? ' ' : ''}${box.text}`;
        })
        .join('')
        .replace(/ +/g, ' ')
        .trim();
    });
};

/** Structure tags of a page as a reader of the tags meets them: `H1`, `Table`, `TR`. */
export const tagsOf = async (bytes: Uint8Array, number = 1): Promise<string[]> => {
  const task = getDocument({ data: new Uint8Array(bytes), verbosity: 0 });
  const document = await task.promise;
  const tree: unknown = await (await document.getPage(number)).getStructTree();
  await task.destroy();
  const roles: string[] = [];
  const walk = (node: unknown): void => {
    if (typeof node !== 'object' || node === null) return;
    if ('role' in node && typeof node.role === 'string') roles.push(node.role);
    if ('children' in node && Array.isArray(node.children)) node.children.forEach(walk);
  };
  walk(tree);
  return roles;
};
