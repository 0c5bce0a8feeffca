/** How far the setting up has come, as the book says it: so it goes on where it was left, in whatever browser. */
import type { Known } from '../../../projections/know.ts';
import { plural } from '../../command-line/settings.ts';

export interface Step {
  readonly path: string;
  readonly name: string;
  readonly done: boolean;
  readonly says: string;
}

export const stepsOf = ({ farm, herd }: Known): readonly Step[] => {
  const setUp = farm.schedule?.setUps.at(-1)?.data;
  const cows = herd.animals.filter(({ present }) => present).length;
  return [
    {
      path: setUp === undefined ? '/begin' : '/farm',
      name: 'The farm',
      done: setUp !== undefined,
      says: setUp === undefined ? 'name, milkings, parlour, groups' : setUp.name,
    },
    {
      path: '/begin/medicines',
      name: 'Medicines',
      done: farm.listings.size > 0,
      says: farm.listings.size === 0 ? 'those on your shelf' : `${farm.listings.size} on the list`,
    },
    {
      path: '/begin/herd',
      name: 'The herd',
      done: cows > 0,
      says: cows === 0 ? 'from a spreadsheet' : plural(cows, 'cow'),
    },
    {
      path: '/',
      name: 'The first sheets',
      done: farm.issued.length > 0,
      says: farm.issued.length === 0 ? 'look at them, issue them, hang them up' : 'issued',
    },
  ];
};
