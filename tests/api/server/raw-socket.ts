/** Bytes over a bare connection, and what came back: for requests that no client would make. */
import net from 'node:net';

export interface RawAnswer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string;
}

/** Sends the pieces, and resolves with all that came when the other side closes or `patience` milliseconds are over. */
export const sendRaw = (url: string, pieces: readonly (string | Uint8Array)[], patience = 5_000): Promise<string> =>
  new Promise((resolve, reject) => {
    const { hostname, port } = new URL(url);
    const socket = net.connect(Number(port), hostname);
    const timer = setTimeout(() => socket.destroy(), patience);
    let came = '';
    socket.setEncoding('latin1');
    socket.on('data', (piece: string) => {
      came += piece;
    });
    socket.on('connect', () => {
      for (const piece of pieces) socket.write(piece);
    });
    // A server that has said no and hung up may reset what we are still sending.
    socket.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'ECONNRESET' && error.code !== 'EPIPE') reject(error);
    });
    socket.on('close', () => {
      clearTimeout(timer);
      resolve(came);
    });
  });

export const readAnswer = (text: string): RawAnswer => {
  const [head = '', ...rest] = text.split('\r\n\r\n');
  const [first = '', ...lines] = head.split('\r\n');
  const headers = lines.map((line): [string, string] => {
    const [, name = '', value = ''] = /^([^:]+): ?(.*)$/.exec(line) ?? [];
    return [name.toLowerCase(), value];
  });
  return { status: Number(first.split(' ')[1]), headers: Object.fromEntries(headers), body: rest.join('\r\n\r\n') };
};
