/** How far the setting up has come, as the book says it: so it goes on where it was left, in whatever browser. */
import type { Known } from '../../../projections/know.ts';
import { say } from '../say.tsx';

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
      name: say('The farm'),
      done: setUp !== undefined,
      says: setUp === undefined ? say('name, milkings, parlour, groups') : setUp.name,
    },
    {
      path: '/begin/medicines',
      name: say('Medicines'),
      done: farm.listings.size > 0,
      says:
        farm.listings.size === 0
          ? say('those on your shelf')
          : say('{n} on the list', { n: String(farm.listings.size) }),
    },
    {
      path: '/begin/herd',
      name: say('The herd'),
      done: cows > 0,
      says: cows === 0 ? say('from a spreadsheet') : say('{n, plural, one {# cow} other {# cows}}', { n: cows }),
    },
    {
      path: '/',
      name: say('The first sheets'),
      done: farm.issued.length > 0,
      says: farm.issued.length === 0 ? say('look at them, issue them, hang them up') : say('issued'),
    },
  ];
};
