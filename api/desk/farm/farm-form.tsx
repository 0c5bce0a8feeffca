/** The form of the farm's set-up in its parts. The first-run pages use the first of them, the farm's own page all. */
import { LANGUAGES } from '../../../print/words.ts';
import { WEEKDAYS } from '../../../shared/local-day.ts';
import { Card, Choice, type Given, Input, Lines, type Option, Tick, Ticks } from '../controls.tsx';
import { rowsOf } from './farm-figures.ts';
import { MOST_LANGUAGES, MOST_MILKINGS } from './farm-typed.ts';
import { GROUP_KIND_WORDS, OFF_LABEL_WORDS } from './farm-words.ts';

type Part = { readonly given: Given };

export const NameAndZone = ({ given }: Part) => (
  <Card title="The farm">
    <div class="row">
      <Input label="Name of the farm" name="name" given={given} required />
      <Input
        label="Time zone"
        name="timeZone"
        given={given}
        list="zones"
        required
        hint="The zone of the clock in the parlour, such as Europe/Dublin"
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
  <Card title="Milkings of a day">
    <p class="hint">One to four, by the parlour’s clock. They need not be evenly spaced. Clear both to take one out.</p>
    <div class="rows">
      {[...Array(MOST_MILKINGS).keys()].map((row) => (
        <fieldset>
          <legend>Milking {row + 1}</legend>
          <Input label="Name" name={`milking-${row}-name`} given={given} />
          <Input label="Starts" name={`milking-${row}-start`} given={given} type="time" />
        </fieldset>
      ))}
    </div>
  </Card>
);

export const ParlourPart = ({ given, all = false }: Part & { readonly all?: boolean }) => (
  <Card title="Parlour">
    <div class="row">
      <Input label="Stalls" name="stalls" given={given} figures required hint="Cows milked in one turn" />
      <Input
        label="Minutes a turn"
        name="turnMinutes"
        given={given}
        figures
        required
        hint="From one lot of cows to the next; common is 10 to 15"
      />
      {all ? (
        <>
          <Input
            label="A cow is slow from (minutes)"
            name="slowFromMinutes"
            given={given}
            figures
            hint="10 where nothing is said"
          />
          <Input label="Minutes more for each slow cow" name="slowExtraMinutes" given={given} figures />
        </>
      ) : null}
    </div>
  </Card>
);

const KINDS: readonly Option[] = [['', 'choose'], ...Object.entries(GROUP_KIND_WORDS)];
const TAKES: readonly Option[] = [
  ['', 'any'],
  ['first-lactation', 'first lactation'],
  ['later-lactations', 'later lactations'],
];
const MILKED: readonly Option[] = [
  ['', 'as its kind says'],
  ['only', 'only at those ticked'],
];

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
  <Card title="Groups" id="groups">
    <p class="hint">
      Groups are milked in the order of their place, the hospital last. Clear a name to take the group away; empty rows
      count for nothing.
    </p>
    <div class="rows">
      {spareRows(given, 'group', spare).map((row) => {
        const at = (field: string): string => `group-${row}-${field}`;
        const name = given.typed.one(at('name'));
        return (
          <fieldset>
            <legend>{name ?? 'Another group'}</legend>
            {given.typed.one(at('was')) === undefined ? null : (
              <input type="hidden" name={at('was')} value={given.typed.one(at('was'))} />
            )}
            <Input label="Name" name={at('name')} given={given} />
            <Choice label="Kind" name={at('kind')} given={given} options={KINDS} />
            {all ? (
              <>
                <Choice label="Takes cows of" name={at('takes')} given={given} options={TAKES} />
                <Input label="Place in the order" name={at('order')} given={given} figures />
                <Input label="Room for (cows)" name={at('capacity')} given={given} figures />
                <Choice label="Milked" name={at('milked')} given={given} options={MILKED} />
                <Ticks label="Milked at" name={at('at')} given={given} options={milkingOptions(given)} />
              </>
            ) : null}
          </fieldset>
        );
      })}
    </div>
    <p>
      <button class="quiet" type="submit" name="step" value="rows" formnovalidate>
        More rows
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
  <Card title="Fresh cows">
    <p class="hint">
      How long the milk stays out of the tank after calving. There is no usual value: your milk buyer’s rules and the
      vet say it. While it is not set, every cow that calves is held without end.
    </p>
    <div class="row">
      <Input label="Fresh hold, milkings" name="freshMilkings" given={given} figures />
      <Input label="Fresh hold, hours" name="freshHours" given={given} figures hint="With both, the later counts" />
      {all ? (
        <>
          <Input
            label="Hold a cow milked within so many days of her due date"
            name="daysBeforeDue"
            given={given}
            figures
          />
          <Input label="Hours in the fresh pen at the least" name="freshPenHours" given={given} figures />
        </>
      ) : null}
    </div>
    {all ? (
      <Tick
        label="A cow on her fresh hold alone may leave the fresh pen"
        name="freshHoldMayMove"
        given={given}
        hint="Her milk stays out of the tank wherever she stands"
      />
    ) : null}
  </Card>
);

const weekdays: readonly Option[] = WEEKDAYS.map((day) => [day, day] as const);

/** Everything else that a farm can say of itself. `products`: dry-cow products on the list of medicines. */
export const OtherParts = ({ given, products }: Part & { readonly products: readonly string[] }) => (
  <>
    <Card title="Drying off">
      <div class="row">
        <Input label="Days dry before calving" name="dryDays" given={given} figures hint="60 where nothing is said" />
        <Input label="At the least (days)" name="minimumDays" given={given} figures hint="45 where nothing is said" />
        <Choice label="Weekday" name="weekday" given={given} options={[['', 'any'], ...weekdays]} />
        <Input
          label="List so many days ahead"
          name="lookAheadDays"
          given={given}
          figures
          hint="7 where nothing is said"
        />
        <Input
          label="Long milking from (days in milk)"
          name="longMilkingDays"
          given={given}
          figures
          hint="305 where nothing is said"
        />
        <Input label="Usual dry-cow product" name="product" given={given} list="products" />
        <Input
          label="Days from service to calving"
          name="gestationDays"
          given={given}
          figures
          hint="283 where nothing is said"
        />
      </div>
      <datalist id="products">
        {products.map((name) => (
          <option value={name} />
        ))}
      </datalist>
    </Card>
    <Card title="Holds">
      <div class="row">
        <Input label="Mark of a cow on hold" name="mark" given={given} hint="Such as: yellow leg band" />
        <Choice
          label="Off-label use holds by"
          name="offLabel"
          given={given}
          options={[['', 'not said: as the first'], ...Object.entries(OFF_LABEL_WORDS)]}
        />
      </div>
      <div class="row">
        <Input label="Milk of treated cows goes" name="milkTo-treated" given={given} />
        <Input label="Milk of fresh cows goes" name="milkTo-fresh" given={given} />
        <Input label="Abnormal milk goes" name="milkTo-abnormal" given={given} />
      </div>
    </Card>
    <Card title="Chores, foot bath, phones">
      <div class="row">
        <Lines label="Before milking, a line each" name="before" given={given} />
        <Lines label="After milking, a line each" name="after" given={given} />
      </div>
      <Ticks label="Foot bath on" name="footBath" given={given} options={weekdays} />
      <div class="rows">
        {spareRows(given, 'phone', 2).map((row) => (
          <fieldset>
            <legend>{given.typed.one(`phone-${row}-who`) ?? 'Another number'}</legend>
            <Input label="Who" name={`phone-${row}-who`} given={given} />
            <Input label="Number" name={`phone-${row}-number`} given={given} />
          </fieldset>
        ))}
      </div>
    </Card>
    <Card title="Paper">
      <div class="row">
        <Choice
          label="Size"
          name="paper"
          given={given}
          options={[
            ['', 'not said: A4'],
            ['A4', 'A4'],
            ['Letter', 'Letter'],
          ]}
        />
        {[...Array(MOST_LANGUAGES).keys()].map((index) => (
          <Choice
            label={index === 0 ? 'First language' : `Language ${index + 1}`}
            name={`language-${index}`}
            given={given}
            options={[['', index === 0 ? 'not said: English' : 'none'], ...languages]}
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
