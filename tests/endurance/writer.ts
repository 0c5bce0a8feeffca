/**
 * A program for the endurance tests: one device that says many doses, some batches twice, and tells at its end what it was
 * told. `writer.ts URL TOKEN NAME BATCHES SEED`; the answer goes to standard output as JSON.
 */
import process from 'node:process';
import { pushUntilTaken, type Receipt } from './client.ts';
import { diceOf } from './dice.ts';
import { batchOf } from './doses.ts';

const [, , url = '', token = '', name = '', batches = '', seed = ''] = process.argv;
const dice = diceOf(Number(seed));
const told: Receipt[] = [];
for (let batch = 0; batch < Number(batches); batch += 1) {
  const entries = batchOf(name, batch, dice.whole(1, 25));
  const receipts = (await pushUntilTaken({ url, token }, entries)) ?? [];
  told.push(...receipts);
  // As after an answer that was lost: the same again must add nothing.
  if (dice.chance(0.3)) told.push(...((await pushUntilTaken({ url, token }, entries)) ?? []));
}
process.stdout.write(JSON.stringify(told));
