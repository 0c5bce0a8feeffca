/** `device add`, `list`, `revoke`: who may connect to this book's server. A token is shown once; the book keeps its hash. */
import { Command, Option } from 'commander';
import { UserProblem } from '../../shared/refusal.ts';
import { isRole, ROLES } from '../devices/roles.ts';
import { out, outJson, plural, withBook } from './settings.ts';

/** A name becomes the source of everything the device says: short, and readable in a list. */
const NAME = /^[\p{L}\p{N}][\p{L}\p{N} ._-]{0,39}$/u;

export const deviceCommand = (): Command =>
  new Command('device')
    .description('who may connect to the server')
    .addCommand(
      new Command('add')
        .description('let a device connect; prints its token, once')
        .argument('<name>', 'what it is called: everything it says carries this as its source')
        .addOption(new Option('--role <role>', 'what it may read and write').choices([...ROLES]).makeOptionMandatory())
        .option('--json', 'print {id, name, role, token} and nothing else')
        .action(async (name: string, options: { role: string; json?: boolean }, command: Command) =>
          withBook(command, { create: true }, (book) => {
            if (!NAME.test(name)) {
              throw new UserProblem(
                `"${name}" cannot be a device's name; use letters, figures, spaces, dots and hyphens, 40 at most`,
                2,
              );
            }
            if (!isRole(options.role)) throw new UserProblem(`--role: use one of ${ROLES.join(', ')}`, 2);
            const { device, token } = book.devices.add(name, options.role);
            if (options.json === true) outJson({ id: device.id, name, role: device.role, token });
            else {
              out(`${name} may connect as ${device.role}. Its token, shown this once:`);
              out(token);
            }
          }),
        ),
    )
    .addCommand(
      new Command('list')
        .description('the devices, in use and revoked')
        .option('--json', 'print them as JSON and nothing else')
        .action(async (options: { json?: boolean }, command: Command) =>
          withBook(command, { readOnly: true }, (book) => {
            const devices = book.devices.list();
            if (options.json === true) {
              outJson(devices);
              return;
            }
            out(plural(devices.length, 'device'));
            for (const { name, role, made, revoked } of devices) {
              out(`  ${name}  ${role}, since ${made}${revoked === null ? '' : `, revoked ${revoked}`}`);
            }
          }),
        ),
    )
    .addCommand(
      new Command('revoke')
        .description('a device may connect no more, from this moment; what it said stays')
        .argument('<name>', 'its name')
        .action(async (name: string, _: unknown, command: Command) =>
          withBook(command, {}, (book) => {
            if (!book.devices.revoke(name)) {
              throw new UserProblem(`There is no device "${name}" in use; device list says which are`);
            }
            out(`${name} may connect no more. What it said stays in the book.`);
          }),
        ),
    );
