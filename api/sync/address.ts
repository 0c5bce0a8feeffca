/** Where the other book is served, and the token for it, as a person types them. Nothing is asked of the network here. */
import { UserProblem } from '../../shared/refusal.ts';

const LOOPBACK = /^(localhost|127(\.\d{1,3}){3}|\[::1\])$/;

/** The address without its last slash: what paths are put behind, and what the book remembers the other by. */
export const addressOf = (text: string): string => {
  let url: URL;
  try {
    url = new URL(text);
  } catch {
    throw new UserProblem(`"${text}" is not an address; write it like https://office.example:8212`, 2);
  }
  if (url.protocol !== 'http:' && url.protocol !== 'https:') {
    throw new UserProblem(`"${text}" is not a web address; it begins with https:// (or http:// on this computer)`, 2);
  }
  if (url.username !== '' || url.password !== '') {
    throw new UserProblem('A name or password does not belong in the address; give the token with --token', 2);
  }
  if (url.search !== '' || url.hash !== '') {
    throw new UserProblem(`"${text}" has something behind the address; end it before the ? or #`, 2);
  }
  if (url.protocol === 'http:' && !LOOPBACK.test(url.hostname)) {
    throw new UserProblem(
      `${text} is another computer, and with http:// the token would travel in the open; use https:// (serve has --tls-cert and --proxy for it)`,
      2,
    );
  }
  return `${url.origin}${url.pathname.replace(/\/+$/, '')}`;
};

export const tokenOf = (given: string | undefined): string => {
  if (given === undefined || given.trim() === '') {
    throw new UserProblem(
      'sync needs a token: on the other book, "device add NAME --role book" makes one; give it as --token, or as BYREBOOK_TOKEN',
      2,
    );
  }
  const token = given.trim();
  if (!/^[0-9A-Za-z_-]{1,200}$/.test(token)) {
    throw new UserProblem('That is not a token: it has characters no token has; copy it again, whole', 2);
  }
  return token;
};
