/**
 * Which one cow a number means when somebody asks about a cow that may have left: her who bears it, or bore it when
 * she left; else her who bore it once. Two cows are never taken for one.
 */
import { officialDigits, withoutLeadingZeros } from '../shared/cow-number.ts';
import type { Instant } from '../shared/instant.ts';
import type { Animal } from './animal.ts';
import type { Known } from './know.ts';

export interface CowMeant {
  /** One where the number is certain; several where it may mean each; none. */
  readonly animals: readonly Animal[];
  /** Numbers like it but for zeros in front, where none bears it. */
  readonly near: readonly string[];
}

/** `day`: look only at who bore the number at some time in it. */
export const cowMeant = (
  known: Known,
  number: string,
  day?: { readonly from: Instant; readonly to: Instant },
): CowMeant => {
  const { animals } = known.herd;
  const official = officialDigits(number);
  const byOfficial = animals.filter((animal) => official !== undefined && animal.officialId === official);
  if (byOfficial.length > 0) return { animals: byOfficial, near: [] };
  if (day !== undefined) {
    const then = animals.filter((animal) =>
      animal.spans.some(
        (span) => span.number === number && span.from <= day.to && (span.to === null || span.to >= day.from),
      ),
    );
    return { animals: then, near: [] };
  }
  const bearing = animals.filter(
    ({ spans }) => spans.at(-1)?.number === number || spans.some((span) => span.number === number && span.to === null),
  );
  if (bearing.length > 0) return { animals: bearing, near: [] };
  const once = animals.filter((animal) => animal.spans.some((span) => span.number === number));
  if (once.length > 0) return { animals: once, near: [] };
  const short = withoutLeadingZeros(number);
  const near = animals
    .flatMap((animal) => animal.spans.map((span) => span.number))
    .filter((each) => withoutLeadingZeros(each) === short);
  return { animals: [], near: [...new Set(near)] };
};
