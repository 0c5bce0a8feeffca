/** Quarters in words and as a plan of the udder. */
import type { Block } from './blocks.ts';
import type { Speech } from './speech.ts';
import { udder } from './udder.ts';
import type { Labels } from './words/dictionary.ts';

/** A quarter that the dictionary does not know prints as it was written. */
export const quarterNames = (labels: Labels, quarters: readonly string[]): string[] => {
  const names: Readonly<Record<string, string>> = labels.quarters;
  return quarters.map((quarter) => names[quarter] ?? quarter);
};

/** The plan with the words of the sheet's first language. */
export const udderOf = (speech: Speech, quarters: readonly string[]): Block => {
  const labels = speech.voices[0]?.labels;
  return udder(quarters, {
    front: labels?.front ?? '',
    left: labels?.leftLetter ?? '',
    right: labels?.rightLetter ?? '',
  });
};
