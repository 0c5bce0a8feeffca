/** What runs in each of the two verifying threads: its own connection for reading, and its part of the work. */
import { parentPort, workerData } from 'node:worker_threads';
import { openFile } from './open-file.ts';
import { verifyBook } from './verify.ts';
import type { ThreadWork } from './verify-apart.ts';
import { helpWith, type Task } from './verify-together.ts';

const { file, formats, joined, isLeader }: ThreadWork = workerData;

const db = openFile(file, {
  create: false,
  readOnly: true,
  waitMilliseconds: 3_000,
  formats,
  begin: () => undefined,
});
if (isLeader) {
  const report = verifyBook(db, file, formats, joined);
  db.close();
  joined.port.close();
  parentPort?.postMessage(report);
} else {
  joined.port.once('message', (task: Task) => {
    helpWith(db, task, joined);
    db.close();
    joined.port.close();
  });
}
