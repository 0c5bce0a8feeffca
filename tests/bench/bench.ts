/**
 * The benchmark: `npm run bench`. Takes each figure beside a bare baseline in the same run and prints a table; it passes
 * and fails nothing. See README.md here.
 */
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import process from 'node:process';
import { parseArgs } from 'node:util';
import { FIGURES } from './figures.ts';
import type { Figure } from './measure.ts';
import { millisecondsOf, spoken } from './measure.ts';
import { peersAt } from './peers.ts';
import type { Setting } from './setting.ts';
import { machine, tableOf } from './table.ts';

const { values } = parseArgs({
  options: {
    quick: { type: 'boolean', default: false },
    only: { type: 'string' },
    runs: { type: 'string' },
    json: { type: 'string' },
    cows: { type: 'string' },
    years: { type: 'string' },
    help: { type: 'boolean', default: false },
  },
});

const FULL = {
  long: { cows: 5_000, years: 10 },
  middle: { cows: 400, years: 3 },
  desk: { cows: 500, years: 3 },
  wall: { cows: 5_000, years: 0.5 },
  growth: [
    { cows: 100, years: 2 },
    { cows: 1_000, years: 3 },
    { cows: 1_000, years: 30 },
    { cows: 10_000, years: 0.3 },
    { cows: 10_000, years: 3 },
  ],
  recorded: 100_000,
  synced: 100_000,
};
const QUICK = {
  long: { cows: 150, years: 2 },
  middle: { cows: 60, years: 1 },
  desk: { cows: 60, years: 1 },
  wall: { cows: 300, years: 0.2 },
  growth: [
    { cows: 50, years: 1 },
    { cows: 200, years: 1 },
  ],
  recorded: 4_000,
  synced: 2_000,
};

const main = async (): Promise<void> => {
  if (values.help) {
    process.stdout.write(
      `npm run bench -- [--quick] [--only ${FIGURES.map(({ name }) => name).join(',')}] [--cows N --years N] [--runs N] [--json FILE]\n`,
    );
    return;
  }
  const only = values.only?.split(',');
  const unknown = only?.find((name) => FIGURES.every((each) => each.name !== name));
  if (unknown !== undefined) {
    process.stderr.write(`There is no figure "${unknown}"; there are ${FIGURES.map(({ name }) => name).join(', ')}\n`);
    process.exitCode = 2;
    return;
  }
  const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'byrebook-bench-'));
  const sizes = values.quick ? QUICK : FULL;
  const setting: Setting = {
    ...sizes,
    long: { cows: Number(values.cows ?? sizes.long.cows), years: Number(values.years ?? sizes.long.years) },
    quick: values.quick,
    runs: Number(values.runs ?? (values.quick ? 1 : 3)),
    scratch,
    peers: peersAt(),
    told: (sentence) => process.stderr.write(`${sentence}\n`),
  };
  const figures: Figure[] = [];
  try {
    for (const { name, take } of FIGURES) {
      if (only !== undefined && !only.includes(name)) continue;
      const took = await millisecondsOf(async () => figures.push(...(await take(setting))));
      setting.told(`${name}: measured in ${spoken(took)}`);
    }
  } finally {
    fs.rmSync(scratch, { recursive: true, force: true });
  }
  const about = machine(setting.runs);
  process.stdout.write(`${about}\n\n${tableOf(figures)}\n`);
  if (values.json !== undefined)
    fs.writeFileSync(values.json, `${JSON.stringify({ machine: about, quick: values.quick, figures }, null, 2)}\n`);
};

await main();
