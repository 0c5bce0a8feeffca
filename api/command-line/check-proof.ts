/** `check-proof`: checks what `proof` wrote, without any book. */
import fs from 'node:fs';
import process from 'node:process';
import { Command } from 'commander';
import { checkProof } from '../../events/log/check-proof.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { out, outJson } from './settings.ts';

interface Options {
  readonly checkpoint?: string;
  readonly key?: string;
  readonly json?: boolean;
}

export const checkProofCommand = (): Command =>
  new Command('check-proof')
    .description('check a proof; needs no book')
    .argument('<file>', 'the proof, as JSON')
    .option('--checkpoint <file>', 'a checkpoint of the older book that somebody else kept')
    .option('--key <key>', 'the verifier key that somebody was given before')
    .option('--json', 'print the outcome as JSON and nothing else')
    .action((file: string, options: Options) => {
      const checkpoint = options.checkpoint === undefined ? undefined : textOf(options.checkpoint);
      const result = checkProof(proofIn(file), { checkpoint, key: options.key });
      if (!result.ok) process.exitCode = 1;
      const says = result.ok ? result.value : `${result.problem}.`;
      if (options.json === true) outJson({ holds: result.ok, says });
      else out(says);
    });

const proofIn = (file: string): unknown => {
  const text = textOf(file);
  try {
    return JSON.parse(text);
  } catch {
    throw new UserProblem(`${file} is not JSON; a proof is what "proof inclusion" or "proof consistency" prints`);
  }
};

export const textOf = (file: string): string => {
  try {
    return fs.readFileSync(file, 'utf8');
  } catch {
    throw new UserProblem(`There is no file ${file} that can be read; check the name`, 2);
  }
};
