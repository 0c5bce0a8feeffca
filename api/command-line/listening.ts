/** What the commands that listen share: the port as typed, and waiting until somebody ends the program. */
import process from 'node:process';
import { UserProblem } from '../../shared/refusal.ts';

export const portOf = (text: string): number => {
  const port = Number(text);
  if (!/^\d{1,5}$/.test(text) || port > 65_535) throw new UserProblem(`--port: "${text}" is not a port; 0 to 65535`, 2);
  return port;
};

/** Resolves when somebody asks the program to end. */
export const toldToEnd = (): Promise<void> =>
  new Promise((resolve) => {
    process.once('SIGINT', () => resolve());
    process.once('SIGTERM', () => resolve());
  });
