/** What every peer's script is given: where the peers are installed, and what it works on; and how it answers. */
import { createRequire } from 'node:module';
import process from 'node:process';

/** Finds a package among the peers, whose folder is named on the command line. */
export const peer = createRequire(process.argv[2]);

export const asked = async () => {
  let text = '';
  for await (const piece of process.stdin) text += piece;
  return JSON.parse(text);
};

/** Milliseconds that it takes. */
export const took = async (work) => {
  const began = performance.now();
  await work();
  return performance.now() - began;
};

/** The last line on standard output is the answer. */
export const answer = (value) => process.stdout.write(`${JSON.stringify(value)}\n`);
