/**
 * Who is connected, for an end that is graceful and comes: a connection on which nothing is being answered is closed at
 * once (one that never asked anything would hold the server up), and what is being answered is the last on its connection.
 */
import type http from 'node:http';
import type https from 'node:https';
import type { Socket } from 'node:net';

export interface Connections {
  /** Closes what is idle, and the others after their answer. */
  readonly finish: () => void;
  /** Closes everything now. */
  readonly cut: () => void;
}

export const connectionsOf = (server: http.Server | https.Server): Connections => {
  const [wires, speaking, answers] = [new Set<Socket>(), new Set<Socket>(), new Set<http.ServerResponse>()];
  const keep = (sockets: Set<Socket>, socket: Socket): void => {
    sockets.add(socket);
    socket.on('close', () => sockets.delete(socket));
  };
  server.on('connection', (socket) => keep(wires, socket));
  server.on('secureConnection', (socket: Socket) => keep(speaking, socket));
  const speakers = 'setSecureContext' in server ? speaking : wires;
  server.on('request', (_, answer: http.ServerResponse) => {
    answers.add(answer);
    answer.on('close', () => answers.delete(answer));
  });
  return {
    finish: () => {
      const busy = new Set<Socket>();
      for (const answer of answers) {
        const { socket } = answer;
        if (!answer.headersSent) answer.setHeader('connection', 'close');
        if (socket === null) continue;
        busy.add(socket);
        // A head that was sent before may have promised that the connection stays.
        answer.on('close', () => socket.destroySoon());
      }
      for (const socket of speakers) if (!busy.has(socket)) socket.destroySoon();
    },
    cut: () => {
      for (const socket of wires) socket.destroy();
    },
  };
};
