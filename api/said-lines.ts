/**
 * Splits what comes in into single entries' texts: JSON Lines, one JSON array, or one JSON document over several lines.
 * Streams: only the entry at hand is in memory. A text longer than `LONGEST` is given up to there and marked as cut.
 */
export interface SaidText {
  readonly text: string;
  /** Line of the input it begins on, from 1. */
  readonly line: number;
  /** True where the input went on: nothing could hold it. */
  readonly cut: boolean;
}

const LONGEST = 16 * 1024 * 1024;

type Shape = 'unknown' | 'lines' | 'array' | 'document';

/** `chunks`: the input as text, in pieces of any size. `unclosed` is told where an array ends without its bracket: it may be cut off. */
export async function* saidTexts(chunks: AsyncIterable<string>, unclosed?: () => void): AsyncIterable<SaidText> {
  let shape: Shape = 'unknown';
  let text = '';
  let line = 1;
  let begun = 1;
  let cut = false;
  let depth = 0;
  let inString = false;
  let escaped = false;
  let first = true;

  const take = (): SaidText | undefined => {
    const said = text.trim();
    const result = said === '' ? undefined : { text: said, line: begun, cut };
    text = '';
    cut = false;
    return result;
  };
  const add = (piece: string): void => {
    if (text === '' && piece.trim() !== '') begun = line;
    if (text.length + piece.length > LONGEST) cut = true;
    else text += piece;
  };

  for await (const chunk of chunks) {
    let from = 0;
    const given = first ? chunk.replace(/^\ufeff/, '') : chunk;
    if (given !== '') first = false;
    for (let at = 0; at < given.length; at += 1) {
      const letter = given[at] ?? '';
      if (shape === 'unknown') {
        if (letter.trim() === '') {
          if (letter === '\n') line += 1;
          from = at + 1;
          continue;
        }
        shape = letter === '[' ? 'array' : 'lines';
        if (shape === 'array') {
          from = at + 1;
          continue;
        }
      }
      if (shape === 'array') {
        if (inString) {
          if (escaped) escaped = false;
          else if (letter === '\\') escaped = true;
          else if (letter === '"') inString = false;
        } else if (letter === '"') inString = true;
        else if (letter === '{' || letter === '[') depth += 1;
        else if ((letter === '}' || letter === ']') && depth > 0) depth -= 1;
        else if (depth === 0 && (letter === ',' || letter === ']')) {
          add(given.slice(from, at));
          from = at + 1;
          const said = take();
          if (said !== undefined) yield said;
          if (letter === ']') shape = 'lines';
        }
      } else if (letter === '\n' && shape === 'lines') {
        add(given.slice(from, at));
        from = at + 1;
        // A line that is nothing but an opening brace begins one document over several lines.
        if (text.trim() === '{') {
          shape = 'document';
          text += '\n';
        } else {
          const said = take();
          if (said !== undefined) yield said;
        }
      }
      if (letter === '\n') line += 1;
    }
    add(given.slice(from));
  }
  const said = take();
  if (said !== undefined) yield said;
  if (shape === 'array') unclosed?.();
}
