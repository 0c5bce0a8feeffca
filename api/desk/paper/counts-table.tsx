/** The count sheet: what was expected, and a box for what was counted, as on the paper. */
import { say } from '../say.tsx';
import { standsNow } from './already.ts';
import type { CountLine } from './on-paper.ts';
import { OwnTime, Small, Trouble } from './parts.tsx';
import type { View } from './view.ts';

export const CountsTable = ({ view, lines }: { view: View; lines: readonly CountLine[] }) => {
  const may = view.may('head-count');
  return (
    <div class="scroll">
      <table>
        <thead>
          <tr>
            <th scope="col">{say('group ¦ column of the counts')}</th>
            <th scope="col" class="number">
              {say('expected')}
            </th>
            <th scope="col">{say('counted')}</th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => {
            const { shut } = standsNow(view.book, line);
            return (
              <tr>
                <th scope="row">{line.group}</th>
                <td class="number">{line.head}</td>
                <td>
                  {shut !== undefined || !may ? (
                    (shut ?? '')
                  ) : (
                    <>
                      <Small view={view} field={line.field} label={say('counted')} of={line.group} longest={6} digits />
                      <OwnTime view={view} field={line.field} of={line.group} />
                      <Trouble view={view} field={line.field} />
                    </>
                  )}
                </td>
              </tr>
            );
          })}
          <tr>
            <th scope="row">{say('all groups')}</th>
            <td class="number">{lines.reduce((sum, { head }) => sum + head, 0)}</td>
            <td>
              {may ? (
                <Small view={view} field="count.all" label={say('counted')} of={say('all groups')} longest={6} digits />
              ) : null}
              <Trouble view={view} field="count.all" />
            </td>
          </tr>
        </tbody>
      </table>
    </div>
  );
};
