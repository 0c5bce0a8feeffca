/** Cow numbers, each a way to her page. */
import { say } from './say.tsx';

export const Cows = ({ numbers, fresh = new Set() }: { numbers: readonly string[]; fresh?: ReadonlySet<string> }) => (
  <span class="cows">
    {numbers.map((number) => (
      <>
        <a class="cow" href={`/cow/${encodeURIComponent(number)}`}>
          {number}
          {fresh.has(number) ? <small> {say('NEW')}</small> : null}
        </a>{' '}
      </>
    ))}
  </span>
);
