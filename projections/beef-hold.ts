/** Cows that may not go for meat now, and until when. */
import { endText, latestEnd } from './hold-piece.ts';
import { meatHoldPieces } from './meat-hold.ts';
import type { Moment } from './moment.ts';
import type { Standing } from './standing.ts';
import { saidOfStandings } from './standings-in-order.ts';
import type { BeefHoldSheet } from './views.ts';

export const beefHoldSheet = (moment: Moment, standings: readonly Standing[]): BeefHoldSheet => ({
  cows: [...rowsOf(standings, moment)],
});

const rowsOf = saidOfStandings('beef holds', (standing, moment): BeefHoldSheet['cows'] => {
  const running = meatHoldPieces(standing.file, moment, standing.asides).filter(
    (piece) => piece.began <= moment.windowEnd && (piece.end === null || piece.end >= moment.milking.start),
  );
  if (running.length === 0) return [];
  return [
    {
      cow: standing.number,
      group: standing.group.name,
      until: endText(latestEnd(running) ?? null),
      reasons: running.map((piece) => ({ ...piece.because, until: endText(piece.end) })),
    },
  ];
});
