/** The address that signs a browser in at the desk as one device; the device is made where there is none of that name. */
import type { Book } from '../../events/book.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { isRole, mayAsk } from '../devices/roles.ts';
import type { Serving } from '../server/listen.ts';

/** Good for ten minutes and one browser. A device that is made by it is a manager's, since whoever starts the server holds the book. */
export const deskAddress = (book: Book, serving: Serving, name: string): string => {
  const device =
    book.devices.list().find((each) => each.name === name && each.revoked === null) ??
    book.devices.add(name, 'manager').device;
  if (!isRole(device.role) || device.role === 'machine' || !mayAsk(device.role, 'sheets'))
    throw new UserProblem(`--desk: the device "${name}" is a ${device.role}, which has no desk; name another`, 2);
  return `${serving.url}${serving.app.deskPathFor(device.id)}`;
};
