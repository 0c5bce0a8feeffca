/**
 * What stands open at the next milking: alerts, doubts, things set aside, and lines at the head of the milk-hold sheet that
 * are neither. Each with the cows that are held on its account meanwhile.
 */
import type { Aside } from '../../../events/entry.ts';
import type { Because } from '../../../projections/because.ts';
import type { HoldPiece } from '../../../projections/hold-piece.ts';
import type { Standing } from '../../../projections/standing.ts';
import { standingsAt } from '../../../projections/standings.ts';
import { momentOf } from '../../../projections/views-at.ts';
import type { Tonight } from '../../tonight.ts';
import { askedOf } from '../who.tsx';

/** In the order of the page. */
export const OPEN_KINDS = ['alert', 'aside', 'doubt', 'line'] as const;

export interface OpenItem {
  /** What a `settled` entry names. */
  readonly key: string;
  readonly kind: (typeof OPEN_KINDS)[number];
  readonly because: Because;
  readonly aside: Aside | undefined;
  /** Cows on hold on its account. */
  readonly holds: readonly Standing[];
  /** Other cows that it is about. */
  readonly about: readonly Standing[];
}

export const openItems = (answer: Tonight): readonly OpenItem[] => {
  const { views, known } = answer;
  const moment = momentOf(known, askedOf(answer));
  const standings = moment === undefined ? [] : standingsAt(known, moment);
  const asides = new Map(known.asides.map((aside) => [aside.key, aside]));
  const item = (kind: OpenItem['kind'], key: string, because: Because): OpenItem => {
    const aside = asides.get(key);
    const holds = standings.filter((standing) => isHeldFor(standing, key, because));
    const named = new Set(numbersIn(because));
    const about = standings.filter((standing) => named.has(standing.number) && !holds.includes(standing));
    return { key, kind: aside === undefined ? kind : 'aside', because, aside, holds, about };
  };
  const notices = [
    ...views.alerts.map(({ key, because }) => item('alert', key, because)),
    ...views.doubts.map(({ key, because }) => item('doubt', key, because)),
  ];
  const have = new Set(notices.map(({ key }) => key));
  const lines = views.sheets['milk-hold'].unplaced
    .filter(({ key }) => !have.has(key))
    .map(({ key, because }) => item('line', key, because));
  return [...notices, ...lines].sort((a, b) => OPEN_KINDS.indexOf(a.kind) - OPEN_KINDS.indexOf(b.kind));
};

const isHeldFor = (standing: Standing, key: string, because: Because): boolean =>
  standing.asides.some((aside) => aside.key === key) ||
  standing.running.some((piece) => isThatHold(piece, standing, because));

/** The reasons to hold that stand for a doubt of their own. */
const isThatHold = (piece: HoldPiece, standing: Standing, because: Because): boolean => {
  const reason = piece.because;
  if (reason.key === 'hold.may-be-her') return because.rule === 'R-25' && shares(reason, because);
  return (
    reason.key === 'hold.dose-not-recorded' &&
    because.key === 'doubt.dose-not-recorded' &&
    because.values.cow === standing.number &&
    because.values.dose === reason.values.dose &&
    shares(reason, because)
  );
};

const shares = (a: Because, b: Because): boolean => a.entries.some((entry) => b.entries.includes(entry));

/** Cow numbers that a reason names. */
export const numbersIn = ({ values }: Because): readonly string[] => {
  const named: unknown[] = [];
  if ('cow' in values) named.push(values.cow);
  if ('number' in values) named.push(values.number);
  if ('cows' in values) named.push(...values.cows);
  return named.filter((each): each is string => typeof each === 'string' && each !== '');
};
