/** A book's file as an older version would have written it: the same rows in the tables of that format. */
import fs from 'node:fs';
import Database from 'better-sqlite3';
import { APPLICATION_ID, FORMATS } from '../../events/log/formats.ts';

/** Puts a closed book of the latest format back into an older one, in place. */
export const putBackInto = (format: number, file: string): void => {
  const latest = `${file}.latest`;
  fs.renameSync(file, latest);
  const db = new Database(file);
  db.pragma(`application_id = ${APPLICATION_ID}`);
  for (const each of FORMATS.filter((known) => known.format <= format)) for (const step of each.steps) db.exec(step);
  db.pragma(`user_version = ${format}`);
  db.prepare('attach ? as latest').run(latest);
  // Format 3 has columns beside the text that its appender filled in.
  const columns =
    format < 3 ? 'position, entry, content, leaf' : 'position, entry, content, leaf, id, subject, strikes';
  db.exec(`insert into entries (${columns}) select ${columns} from latest.entries`);
  for (const table of ['set_aside', 'papers', 'books', 'head'])
    db.exec(`insert into ${table} select * from latest.${table}`);
  db.exec('detach latest');
  db.close();
  fs.rmSync(latest);
};
