/** The form of a label. What decides over milk and meat has no choice made beforehand. */
import { Card, Choice, type Given, Input, type Option, Tick, Ticks } from '../controls.tsx';
import { MOST_STEPS } from './medicine-typed.ts';
import { EARLY_WORDS, FOR_WORDS, KIND_WORDS, MILK_WORDS } from './medicine-words.ts';

const MILK: readonly Option[] = [['hold', 'this long after the last dose:'], ...Object.entries(MILK_WORDS)];
const MEAT: readonly Option[] = [
  ['days', 'so many days after the last dose:'],
  ['steps', 'by the number of doses (below)'],
  ['unknown', MILK_WORDS.unknown],
];
const AFTER: readonly Option[] = [
  ['hold', 'this long:'],
  ['none', 'none: the label says so'],
];

export const LabelCaution = () => (
  <p class="notices doubt">
    The label on the package in your hand decides, and the vet where he or she says otherwise. This list only repeats
    the label so that the sheets can do the arithmetic. When the two differ, keep the milk out and ask.
  </p>
);

/** `isNew`: the name is typed; a medicine on the list keeps its own. */
export const LabelForm = ({ given, isNew }: { given: Given; isNew: boolean }) => (
  <>
    <Card title="What it is">
      {isNew ? (
        <Input
          label="Name on this list"
          name="name"
          given={given}
          required
          hint="By active ingredient and how it is given, such as: penicillin G procaine, udder"
        />
      ) : (
        <input type="hidden" name="name" value={given.typed.one('name') ?? ''} />
      )}
      <div class="row">
        <Input label="Active ingredient" name="active" given={given} />
        <Choice
          label="Kind"
          name="kind"
          given={given}
          options={[['', 'not said: medicine'], ...Object.entries(KIND_WORDS)]}
        />
        <Input label="Route on the label" name="route" given={given} hint="Another route is off-label" />
      </div>
      <Ticks
        label="The label is for"
        name="for"
        given={given}
        options={Object.entries(FOR_WORDS)}
        hint="None ticked: any. Given to others it is off-label"
      />
    </Card>
    <Card title="Milk">
      <Ticks label="Milk hold on the label" name="milk" given={given} options={MILK} oneOnly />
      <div class="row">
        <Input label="Hours" name="milkHours" given={given} figures hint="From the minute of the last dose" />
        <Input
          label="Milkings"
          name="milkMilkings"
          given={given}
          figures
          hint="Never less than 12 hours each. With both, the later counts"
        />
      </div>
    </Card>
    <Card title="Meat">
      <Ticks label="Meat hold on the label" name="meat" given={given} options={MEAT} oneOnly />
      <Input label="Days" name="meatDays" given={given} figures hint="A day is 24 hours; 0 where there is none" />
      <details open={given.typed.one('step-0-days') !== undefined || given.problems.has('step-0-days')}>
        <summary>Steps by the number of doses</summary>
        <p class="hint">For the last step leave the doses empty: it is for every number above.</p>
        <div class="rows">
          {[...Array(MOST_STEPS).keys()].map((row) => (
            <fieldset>
              <legend>Step {row + 1}</legend>
              <Input label="Up to (doses)" name={`step-${row}-upToDoses`} given={given} figures />
              <Input label="Days" name={`step-${row}-days`} given={given} figures />
            </fieldset>
          ))}
        </div>
      </details>
    </Card>
    <Card title="Dry-cow product">
      <Tick label="It is given to dry a cow off" name="dryCow" given={given} />
      <div class="row">
        <Input label="At least so many days before calving" name="minimumDryDays" given={given} figures />
        <Input
          label="No beef, hours after calving"
          name="meatHoursAfterCalving"
          given={given}
          figures
          hint="Beside the meat days above, the later counts"
        />
        <Choice
          label="Calved too early"
          name="earlyCalving"
          given={given}
          options={[['', `not said: ${EARLY_WORDS['ask-vet']}`], ...Object.entries(EARLY_WORDS)]}
        />
      </div>
      <Ticks label="Milk hold after calving" name="afterCalving" given={given} options={AFTER} oneOnly />
      <div class="row">
        <Input label="Hours after calving" name="afterHours" given={given} figures />
        <Input label="Milkings after calving" name="afterMilkings" given={given} figures />
      </div>
    </Card>
    <Card title="Where the label ends">
      <p class="hint">Beyond these it is off-label use, and the vet’s time is wanted.</p>
      <div class="row">
        <Input label="Doses at the most" name="maxDoses" given={given} figures />
        <Input label="Hours between doses at the least" name="minIntervalHours" given={given} figures />
        <Input label="Not from an age of (months)" name="notFromAgeMonths" given={given} figures />
      </div>
      <Tick label="Not authorised for animals whose milk people drink" name="notForMilkAnimals" given={given} />
      <Tick label="Not authorised for animals that people eat" name="notForFoodAnimals" given={given} />
      <Tick
        label="No longer used on this farm"
        name="retired"
        given={given}
        hint="Its holds go on; a dose given after this is asked about"
      />
    </Card>
  </>
);
