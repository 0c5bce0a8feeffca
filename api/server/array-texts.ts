/** The own text of each value in a JSON array, exactly as it was written. */

const [QUOTE, COMMA, BACKSLASH] = [34, 44, 92];
const [OPEN_LIST, CLOSE_LIST, OPEN_BRACE, CLOSE_BRACE] = [91, 93, 123, 125];

/** `text` is readable JSON, and an array. */
export const arrayTexts = (text: string): string[] => {
  const texts: string[] = [];
  let depth = 0;
  let from = 0;
  const take = (to: number): void => {
    const said = text.slice(from, to).trim();
    if (said !== '') texts.push(said);
    from = to + 1;
  };
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === QUOTE) {
      for (at += 1; text.charCodeAt(at) !== QUOTE; at += 1) if (text.charCodeAt(at) === BACKSLASH) at += 1;
    } else if (code === OPEN_BRACE || code === OPEN_LIST) {
      depth += 1;
      if (depth === 1) from = at + 1;
    } else if (code === CLOSE_BRACE || code === CLOSE_LIST) {
      depth -= 1;
      if (depth === 0) take(at);
    } else if (code === COMMA && depth === 1) take(at);
  }
  return texts;
};
