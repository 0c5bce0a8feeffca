/** Servers in processes of their own: the real command, and a bare one that stands ready to take over. */
import { type ChildProcess, fork, spawn } from 'node:child_process';
import { onTestFinished } from 'vitest';

export interface ServerProcess {
  readonly child: ChildProcess;
  readonly url: string;
  /** What it said on standard error; a server that is well says nothing there. */
  readonly complaints: () => string;
  /** Asks it to end; gives its exit code. */
  readonly end: () => Promise<number | null>;
  /** As `kill -9`. Resolves when it is gone. */
  readonly kill: () => Promise<void>;
}

export interface Ready {
  /** Opens the book and listens. Rejects where it ends before it does. */
  readonly serve: (port: number) => Promise<ServerProcess>;
  readonly child: ChildProcess;
  readonly kill: () => Promise<void>;
}

const watched = (child: ChildProcess) => {
  let wrong = '';
  child.stderr?.on('data', (piece: Buffer) => {
    wrong += piece.toString();
  });
  const gone = new Promise<number | null>((resolve) => child.on('exit', resolve));
  onTestFinished(() => {
    child.kill('SIGKILL');
  });
  const end = (): Promise<number | null> => {
    child.kill('SIGTERM');
    return gone;
  };
  const kill = async (): Promise<void> => {
    child.kill('SIGKILL');
    await gone;
  };
  return { complaints: () => wrong, gone, end, kill };
};

/** A bare server, loaded and waiting. */
export const readyServer = (file: string): Promise<Ready> => {
  const child = fork('tests/endurance/serve-until-killed.ts', [file], {
    execArgv: ['--import', 'tsx'],
    stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
  });
  const { complaints, gone, end, kill } = watched(child);
  const said = <T>(): Promise<T> =>
    new Promise((resolve, reject) => {
      child.once('message', (message) => resolve(message as T));
      void gone.then(() => reject(new Error(`The server ended: ${complaints()}`)));
    });
  const serve = async (port: number): Promise<ServerProcess> => {
    const answered = said<{ url: string }>();
    child.send(port);
    const { url } = await answered;
    return { child, url, complaints, end, kill };
  };
  return said<string>().then(() => ({ serve, child, kill }));
};

/** The real command, `serve`, on a port of the system's choice. */
export const serveCommand = (file: string): Promise<ServerProcess> => {
  const args = ['api/byrebook.mjs', '--book', file, 'serve', '--port', '0', '--log', 'error'];
  const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'pipe'] });
  const { complaints, gone, end, kill } = watched(child);
  return new Promise((resolve, reject) => {
    let out = '';
    child.stdout.on('data', (piece: Buffer) => {
      out += piece.toString();
      const url = / at (http\S+) /.exec(out)?.[1];
      if (url !== undefined) resolve({ child, url, complaints, end, kill });
    });
    void gone.then(() => reject(new Error(`serve ended: ${complaints()}`)));
  });
};
