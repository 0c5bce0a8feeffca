/** What the server counted since it started, in the text form that metrics collectors read. */
import type { Receipt } from '../../events/book.ts';

export interface Counters {
  readonly answered: (status: number) => void;
  readonly pushed: (receipts: readonly Receipt[]) => { recorded: number; known: number; refused: number };
  readonly text: (now: Readonly<Record<string, number>>) => string;
}

export const countersOf = (): Counters => {
  const statuses = new Map<number, number>();
  const entries = { recorded: 0, known: 0, refused: 0 };
  return {
    answered: (status) => {
      statuses.set(status, (statuses.get(status) ?? 0) + 1);
    },
    pushed: (receipts) => {
      const count = (outcome: Receipt['outcome']) => receipts.filter((receipt) => receipt.outcome === outcome).length;
      const tally = { recorded: count('recorded'), known: count('already-known'), refused: count('refused') };
      entries.recorded += tally.recorded;
      entries.known += tally.known;
      entries.refused += tally.refused;
      return tally;
    },
    text: (now) =>
      [
        '# TYPE byrebook_answers_total counter',
        ...[...statuses]
          .sort(([a], [b]) => a - b)
          .map(([status, n]) => `byrebook_answers_total{status="${status}"} ${n}`),
        '# TYPE byrebook_entries_total counter',
        ...Object.entries(entries).map(([outcome, n]) => `byrebook_entries_total{outcome="${outcome}"} ${n}`),
        ...Object.entries(now).flatMap(([name, value]) => [
          `# TYPE byrebook_${name} gauge`,
          `byrebook_${name} ${value}`,
        ]),
        '',
      ].join('\n'),
  };
};
