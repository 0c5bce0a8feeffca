/** PouchDB on LevelDB: so many small documents replicated from one database of this process to another. */
import process from 'node:process';
import { answer, asked, peer, took } from './asked.mjs';

const PouchDB = peer('pouchdb');
const count = await asked();
const [from, to] = ['from', 'to'].map((name) => new PouchDB(`pouch-${name}-${process.pid}`));
for (let first = 0; first < count; first += 1_000) {
  const documents = Array.from({ length: Math.min(1_000, count - first) }, (_, index) => ({
    _id: String(first + index).padStart(10, '0'),
    type: 'treatment',
    subject: String((first + index) % 500),
    time: '2026-03-14T16:40:00Z',
    data: { medicine: 'Penicillin G procaine, udder', route: 'udder' },
  }));
  await from.bulkDocs(documents);
}
const replicated = await took(() => from.replicate.to(to, { batch_size: 1_000 }));
const { doc_count: arrived } = await to.info();
await Promise.all([from.destroy(), to.destroy()]);
if (arrived !== count) throw new Error(`${arrived} of ${count} documents arrived`);
answer({ replicated });
