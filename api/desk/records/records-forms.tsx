/** The forms of the record keeper's page. */
import type { AtHand } from '../at-hand.ts';
import { Field } from '../field.tsx';
import { say, sayWith } from '../say.tsx';
import type { Problems, Typed } from './records-asked.ts';

interface Given {
  readonly typed: Typed;
  readonly problems: Problems;
}

export const MomentForm = ({ hand, typed, problems }: Given & { hand: AtHand }) => {
  const { answer, schedule } = hand;
  const last = answer.known.farm.issued.at(-1)?.data.milking ?? answer.milking.id;
  const { date = last.slice(0, 10), name = last.slice(11) } = typed;
  const { zone, data } = schedule.inForceAt(answer.asOf);
  const names = [
    ...new Set([...schedule.setUps.flatMap((setUp) => setUp.data.milkings), ...data.milkings].map((each) => each.name)),
  ];
  return (
    <form class="card" method="get" action="/records/then" aria-labelledby="moment">
      <h2 id="moment">{say('A milking as it was known then')}</h2>
      <div class="row">
        <Field
          id="then-date"
          name="date"
          type="date"
          label={say('Date of the milking')}
          value={date}
          problem={problems.date}
        />
        <div class="field">
          <label for="then-name">{say('Milking')}</label>
          <select id="then-name" name="name">
            {names.map((each) => (
              <option selected={each === name}>{each}</option>
            ))}
          </select>
        </div>
      </div>
      <fieldset>
        <legend>{say('As known when? Fill in one of the three')}</legend>
        <div class="row">
          <Field
            id="then-at"
            name="at"
            type="datetime-local"
            label={say('Date and time')}
            hint={say('By the clocks of {zone}', { zone: zone.name })}
            value={typed.at}
            problem={problems.at}
          />
          <Field
            id="then-position"
            name="position"
            label={say('Position')}
            hint={say('As printed at the foot of a sheet')}
            inputmode="numeric"
            value={typed.position}
            problem={problems.position}
          />
          <Field
            id="then-ref"
            name="ref"
            label={say('Ref of a set')}
            hint={say('It knows its own milking')}
            maxlength={20}
            value={typed.ref}
            problem={problems.ref}
          />
        </div>
      </fieldset>
      <button type="submit">{say('Show the sheets as known then')}</button>
    </form>
  );
};

/** From here on the reader is told that it takes its time. */
const LARGE = 50_000;

export const VerifyForm = ({ once, typed, problems, entries }: Given & { once: string; entries: number }) => (
  <form class="card" method="post" action="/records/verify" aria-labelledby="verify">
    <h2 id="verify">{say('Does the book agree with itself, and with what others kept?')}</h2>
    <p>
      {say('Works every entry, the tree, the signature and the kept papers out again.')}
      {entries < LARGE
        ? ''
        : ` ${say('With {n, plural, one {# entry} other {# entries}} it may take a while, and the other pages wait meanwhile; better not just before milking.', { n: entries })}`}
    </p>
    <input type="hidden" name="once" value={once} />
    <Field
      id="verify-paper"
      name="paper"
      label={say('A paper: position and root digits from its foot')}
      hint={say('Such as 1841:5dc9da79a70659a9; leave it empty to check the book alone')}
      maxlength={120}
      value={typed.paper}
      problem={problems.paper}
    />
    <div class="field">
      <label for="verify-checkpoint">{say('A checkpoint that somebody else kept')}</label>
      <textarea
        id="verify-checkpoint"
        name="checkpoint"
        rows={3}
        aria-invalid={problems.checkpoint === undefined ? undefined : 'true'}
        aria-describedby={problems.checkpoint === undefined ? undefined : 'verify-checkpoint-problem'}
      >
        {typed.checkpoint ?? ''}
      </textarea>
      {problems.checkpoint === undefined ? null : (
        <span class="problem" id="verify-checkpoint-problem">
          {problems.checkpoint}
        </span>
      )}
    </div>
    <p>
      <label class="choice">
        <input type="checkbox" name="deep" value="yes" checked={typed.deep !== undefined} />
        {say('Also work out every issued set again (slower)')}
      </label>
    </p>
    <button type="submit">{say('Verify')}</button>
  </form>
);

export const RegisterForm = ({ typed, problems }: Given) => (
  <form class="card" method="get" action="/records/medicines.csv" aria-labelledby="register">
    <h2 id="register">{say('Register of medicines')}</h2>
    <div class="row">
      <Field
        id="register-from"
        name="from"
        type="date"
        label={say('First day')}
        hint={say('Empty: from the beginning')}
        value={typed.from}
        problem={problems.from}
      />
      <Field
        id="register-to"
        name="to"
        type="date"
        label={say('Last day')}
        hint={say('Empty: until now')}
        value={typed.to}
        problem={problems.to}
      />
    </div>
    <div class="actions">
      <button type="submit" formaction="/records/medicines.pdf">
        {say('Register for paper (PDF)')}
      </button>
      <button type="submit" class="quiet">
        {say('Register for a spreadsheet (CSV)')}
      </button>
      <a class="button" href="/records/stock.csv">
        {say('Stock by batch (CSV)')}
      </a>
    </div>
  </form>
);

export const ProofForms = ({ typed, problems, verifierKey }: Given & { verifierKey: string }) => (
  <section class="card" aria-labelledby="proofs">
    <h2 id="proofs">{say('Proofs for somebody outside')}</h2>
    <p>
      {sayWith(
        'Let the vet, the buyer or another farm keep a checkpoint: later it shows that nothing before it was changed. It is checked with the key <key></key>; <command></command> checks a proof without the book.',
        {
          key: () => <span class="code">{verifierKey}</span>,
          command: () => <code lang="en">byrebook check-proof</code>,
        },
      )}
    </p>
    <p>
      <a class="button" href="/records/checkpoint.txt">
        {say('Checkpoint of now')}
      </a>
    </p>
    <div class="row">
      <form class="field" method="get" action="/records/inclusion.json">
        <Field
          id="proof-entry"
          name="entry"
          label={say('That an entry is in the book: its id or position')}
          maxlength={100}
          value={typed.entry}
          problem={problems.entry}
        />
        <button class="quiet" type="submit">
          {say('Proof of the entry')}
        </button>
      </form>
      <form class="field" method="get" action="/records/consistency.json">
        <Field
          id="proof-older"
          name="older"
          label={say('That the book goes on from an older position')}
          inputmode="numeric"
          maxlength={10}
          value={typed.older}
          problem={problems.older}
        />
        <button class="quiet" type="submit">
          {say('Proof of going on')}
        </button>
      </form>
    </div>
  </section>
);

export const CowForm = ({ typed, problems }: Given) => (
  <form class="card" method="get" action="/records/cow" aria-labelledby="history">
    <h2 id="history">{say('History of a cow')}</h2>
    <Field
      id="history-number"
      name="number"
      label={say('Her number')}
      hint={say('Barn number or official number, now or once')}
      maxlength={24}
      value={typed.number}
      problem={problems.number}
    />
    <button class="quiet" type="submit">
      {say('Her page')}
    </button>
  </form>
);
