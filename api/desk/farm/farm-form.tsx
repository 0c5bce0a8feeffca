/** The form of the farm's set-up in its parts. The first-run pages use the first of them, the farm's own page all. */
import { LANGUAGES } from '../../../print/words.ts';
import { WEEKDAYS } from '../../../shared/local-day.ts';
import { Card, Choice, type Given, Input, Lines, type Option, Tick, Ticks } from '../controls.tsx';
import type { Sentence } from '../said/every.ts';
import { say } from '../say.tsx';
import { rowsOf } from './farm-figures.ts';
import { MOST_LANGUAGES, MOST_MILKINGS } from './farm-typed.ts';
import { GROUP_KIND_WORDS, OFF_LABEL_WORDS } from './farm-words.ts';

type Part = { readonly given: Given };

export const NameAndZone = ({ given }: Part) => (
  <Card title={say('The farm')}>
    <div class="row">
      <Input label={say('Name of the farm')} name="name" given={given} required />
      <Input
        label={say('Time zone')}
        name="timeZone"
        given={given}
        list="zones"
        required
        hint={say('The zone of the clock in the parlour, such as Europe/Dublin')}
      />
    </div>
    <datalist id="zones">
      {Intl.supportedValuesOf('timeZone').map((zone) => (
        <option value={zone} />
      ))}
    </datalist>
  </Card>
);

export const MilkingsPart = ({ given }: Part) => (
  <Card title={say('Milkings of a day')}>
    <p class="hint">
      {say('One to four, by the parlour’s clock. They need not be evenly spaced. Clear both to take one out.')}
    </p>
    <div class="rows">
      {[...Array(MOST_MILKINGS).keys()].map((row) => (
        <fieldset>
          <legend>{say('Milking {name}', { name: String(row + 1) })}</legend>
          <Input label={say('Name')} name={`milking-${row}-name`} given={given} />
          <Input label={say('Starts')} name={`milking-${row}-start`} given={given} type="time" />
        </fieldset>
      ))}
    </div>
  </Card>
);

export const ParlourPart = ({ given, all = false }: Part & { readonly all?: boolean }) => (
  <Card title={say('Parlour')}>
    <div class="row">
      <Input label={say('Stalls')} name="stalls" given={given} figures required hint={say('Cows milked in one turn')} />
      <Input
        label={say('Minutes a turn')}
        name="turnMinutes"
        given={given}
        figures
        required
        hint={say('From one lot of cows to the next; common is 10 to 15')}
      />
      {all ? (
        <>
          <Input
            label={say('A cow is slow from (minutes)')}
            name="slowFromMinutes"
            given={given}
            figures
            hint={say('{n} where nothing is said', { n: '10' })}
          />
          <Input label={say('Minutes more for each slow cow')} name="slowExtraMinutes" given={given} figures />
        </>
      ) : null}
    </div>
  </Card>
);

/** The choices of a list in the words of whoever asks. */
const saidOptions = (words: Readonly<Record<string, Sentence>>): readonly Option[] =>
  Object.entries(words).map(([value, sentence]) => [value, say(sentence)] as const);

const KINDS = { '': 'choose', ...GROUP_KIND_WORDS } as const;
const TAKES = {
  '': 'any ¦ of cows',
  'first-lactation': 'first lactation',
  'later-lactations': 'later lactations',
} as const;
const MILKED = { '': 'as its kind says', only: 'only at those ticked' } as const;
const OFF_LABEL = { '': 'not said: as the first', ...OFF_LABEL_WORDS } as const;

/** Rows for more groups: without a script a row can't be added on the page itself. */
export const spareRows = (given: Given, row: string, spare: number, most = 40): number[] => {
  const have = rowsOf(given.typed, row);
  const next = (have.at(-1) ?? -1) + 1;
  return [...have, ...Array.from({ length: spare }, (_, index) => next + index)].slice(0, most);
};

export const GroupsPart = ({
  given,
  spare,
  all = false,
}: Part & { readonly spare: number; readonly all?: boolean }) => (
  <Card title={say('Groups')} id="groups">
    <p class="hint">
      {say(
        'Groups are milked in the order of their place, the hospital last. Type over a name and its cows go along; clear it to take the group away; empty rows count for nothing.',
      )}
    </p>
    <div class="rows">
      {spareRows(given, 'group', spare).map((row) => {
        const at = (field: string): string => `group-${row}-${field}`;
        const name = given.typed.one(at('name'));
        return (
          <fieldset>
            <legend>{name ?? say('Another group')}</legend>
            {given.typed.one(at('was')) === undefined ? null : (
              <input type="hidden" name={at('was')} value={given.typed.one(at('was'))} />
            )}
            <Input label={say('Name')} name={at('name')} given={given} />
            <Choice label={say('Kind')} name={at('kind')} given={given} options={saidOptions(KINDS)} />
            {all ? (
              <>
                <Choice label={say('Takes cows of')} name={at('takes')} given={given} options={saidOptions(TAKES)} />
                <Input label={say('Place in the order')} name={at('order')} given={given} figures />
                <Input label={say('Room for (cows)')} name={at('capacity')} given={given} figures />
                <Choice
                  label={say('Milked ¦ of a group')}
                  name={at('milked')}
                  given={given}
                  options={saidOptions(MILKED)}
                />
                <Ticks label={say('Milked at')} name={at('at')} given={given} options={milkingOptions(given)} />
              </>
            ) : null}
          </fieldset>
        );
      })}
    </div>
    <p>
      <button class="quiet" type="submit" name="step" value="rows" formnovalidate>
        {say('More rows')}
      </button>
    </p>
  </Card>
);

const milkingOptions = (given: Given): Option[] =>
  [...Array(MOST_MILKINGS).keys()].flatMap((row): Option[] => {
    const name = given.typed.one(`milking-${row}-name`);
    return name === undefined ? [] : [[String(row), name]];
  });

export const FreshPart = ({ given, all = false }: Part & { readonly all?: boolean }) => (
  <Card title={say('Fresh cows')}>
    <p class="hint">
      {say(
        'How long the milk stays out of the tank after calving. There is no usual value: your milk buyer’s rules and the vet say it. While it is not set, every cow that calves is held without end.',
      )}
    </p>
    <div class="row">
      <Input label={say('Fresh hold, milkings')} name="freshMilkings" given={given} figures />
      <Input
        label={say('Fresh hold, hours')}
        name="freshHours"
        given={given}
        figures
        hint={say('With both, the later counts')}
      />
      {all ? (
        <>
          <Input
            label={say('Hold a cow milked within so many days of her due date')}
            name="daysBeforeDue"
            given={given}
            figures
          />
          <Input label={say('Hours in the fresh pen at the least')} name="freshPenHours" given={given} figures />
        </>
      ) : null}
    </div>
    {all ? (
      <Tick
        label={say('A cow on her fresh hold alone may leave the fresh pen')}
        name="freshHoldMayMove"
        given={given}
        hint={say('Her milk stays out of the tank wherever she stands')}
      />
    ) : null}
  </Card>
);

const weekdays = (): readonly Option[] => WEEKDAYS.map((day) => [day, say(day)] as const);

/** Everything else that a farm can say of itself. `products`: dry-cow products on the list of medicines. */
export const OtherParts = ({ given, products }: Part & { readonly products: readonly string[] }) => (
  <>
    <Card title={say('Drying off')}>
      <div class="row">
        <Input
          label={say('Days dry before calving')}
          name="dryDays"
          given={given}
          figures
          hint={say('{n} where nothing is said', { n: '60' })}
        />
        <Input
          label={say('At the least (days)')}
          name="minimumDays"
          given={given}
          figures
          hint={say('{n} where nothing is said', { n: '45' })}
        />
        <Choice
          label={say('Weekday')}
          name="weekday"
          given={given}
          options={[['', say('any ¦ of weekdays')], ...weekdays()]}
        />
        <Input
          label={say('List so many days ahead')}
          name="lookAheadDays"
          given={given}
          figures
          hint={say('{n} where nothing is said', { n: '7' })}
        />
        <Input
          label={say('Long milking from (days in milk)')}
          name="longMilkingDays"
          given={given}
          figures
          hint={say('{n} where nothing is said', { n: '305' })}
        />
        <Input label={say('Usual dry-cow product')} name="product" given={given} list="products" />
        <Input
          label={say('Days from service to calving')}
          name="gestationDays"
          given={given}
          figures
          hint={say('{n} where nothing is said', { n: '283' })}
        />
      </div>
      <datalist id="products">
        {products.map((name) => (
          <option value={name} />
        ))}
      </datalist>
    </Card>
    <Card title={say('Holds')}>
      <div class="row">
        <Input label={say('Mark of a cow on hold')} name="mark" given={given} hint={say('Such as: yellow leg band')} />
        <Choice label={say('Off-label use holds by')} name="offLabel" given={given} options={saidOptions(OFF_LABEL)} />
      </div>
      <div class="row">
        <Input label={say('Milk of treated cows goes')} name="milkTo-treated" given={given} />
        <Input label={say('Milk of fresh cows goes')} name="milkTo-fresh" given={given} />
        <Input label={say('Abnormal milk goes')} name="milkTo-abnormal" given={given} />
      </div>
    </Card>
    <Card title={say('Chores, foot bath, phones')}>
      <div class="row">
        <Lines label={say('Before milking, a line each')} name="before" given={given} />
        <Lines label={say('After milking, a line each')} name="after" given={given} />
      </div>
      <Ticks label={say('Foot bath on')} name="footBath" given={given} options={weekdays()} />
      <div class="rows">
        {spareRows(given, 'phone', 2).map((row) => (
          <fieldset>
            <legend>{given.typed.one(`phone-${row}-who`) ?? say('Another number')}</legend>
            <Input label={say('Who')} name={`phone-${row}-who`} given={given} />
            <Input label={say('Number')} name={`phone-${row}-number`} given={given} />
          </fieldset>
        ))}
      </div>
    </Card>
    <Card title={say('Paper')}>
      <div class="row">
        <Choice
          label={say('Size ¦ of paper')}
          name="paper"
          given={given}
          options={[
            ['', say('not said: A4')],
            ['A4', 'A4'],
            ['Letter', 'Letter'],
          ]}
        />
        {[...Array(MOST_LANGUAGES).keys()].map((index) => (
          <Choice
            label={index === 0 ? say('First language') : say('Language {n}', { n: String(index + 1) })}
            name={`language-${index}`}
            given={given}
            options={[['', index === 0 ? say('not said: English') : say('none ¦ of languages')], ...languages]}
          />
        ))}
      </div>
    </Card>
  </>
);

/** Each language by its own name. */
const languages: readonly Option[] = LANGUAGES.map(
  (tag) => [tag, new Intl.DisplayNames([tag], { type: 'language' }).of(tag) ?? tag] as const,
);
