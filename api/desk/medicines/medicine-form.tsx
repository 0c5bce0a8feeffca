/** The form of a label. What decides over milk and meat has no choice made beforehand. */
import { Card, Choice, type Given, Input, type Option, Tick, Ticks } from '../controls.tsx';
import { say } from '../say.tsx';
import { MOST_STEPS } from './medicine-typed.ts';
import { choicesOf, EARLY_WORDS, FOR_WORDS, KIND_WORDS, MILK_WORDS } from './medicine-words.ts';

const milkChoices = (): readonly Option[] => [
  ['hold', say('this long after the last dose:')],
  ...choicesOf(MILK_WORDS),
];
const meatChoices = (): readonly Option[] => [
  ['days', say('so many days after the last dose:')],
  ['steps', say('by the number of doses (below)')],
  ['unknown', say(MILK_WORDS.unknown)],
];
const afterChoices = (): readonly Option[] => [
  ['hold', say('this long:')],
  ['none', say('none: the label says so')],
];

export const LabelCaution = () => (
  <p class="notices doubt">
    {say(
      'The label on the package in your hand decides, and the vet where he or she says otherwise. This list only repeats the label so that the sheets can do the arithmetic. When the two differ, keep the milk out and ask.',
    )}
  </p>
);

/** `isNew`: the name is typed; a medicine on the list keeps its own. */
export const LabelForm = ({ given, isNew }: { given: Given; isNew: boolean }) => (
  <>
    <Card title={say('What it is')}>
      {isNew ? (
        <Input
          label={say('Name on this list')}
          name="name"
          given={given}
          required
          hint={say('By active ingredient and how it is given, such as: penicillin G procaine, udder')}
        />
      ) : (
        <input type="hidden" name="name" value={given.typed.one('name') ?? ''} />
      )}
      <div class="row">
        <Input label={say('Active ingredient')} name="active" given={given} />
        <Choice
          label={say('Kind')}
          name="kind"
          given={given}
          options={[['', say('not said: medicine')], ...choicesOf(KIND_WORDS)]}
        />
        <Input label={say('Route on the label')} name="route" given={given} hint={say('Another route is off-label')} />
      </div>
      <Ticks
        label={say('The label is for')}
        name="for"
        given={given}
        options={choicesOf(FOR_WORDS)}
        hint={say('None ticked: any. Given to others it is off-label')}
      />
    </Card>
    <Card title={say('Milk')}>
      <Ticks label={say('Milk hold on the label')} name="milk" given={given} options={milkChoices()} oneOnly />
      <div class="row">
        <Input
          label={say('Hours')}
          name="milkHours"
          given={given}
          figures
          hint={say('From the minute of the last dose')}
        />
        <Input
          label={say('Milkings')}
          name="milkMilkings"
          given={given}
          figures
          hint={say('Never less than 12 hours each. With both, the later counts')}
        />
      </div>
    </Card>
    <Card title={say('Meat')}>
      <Ticks label={say('Meat hold on the label')} name="meat" given={given} options={meatChoices()} oneOnly />
      <Input
        label={say('Days')}
        name="meatDays"
        given={given}
        figures
        hint={say('A day is 24 hours; 0 where there is none')}
      />
      <details open={given.typed.one('step-0-days') !== undefined || given.problems.has('step-0-days')}>
        <summary>{say('Steps by the number of doses')}</summary>
        <p class="hint">{say('For the last step leave the doses empty: it is for every number above.')}</p>
        <div class="rows">
          {[...Array(MOST_STEPS).keys()].map((row) => (
            <fieldset>
              <legend>{say('Step {n}', { n: String(row + 1) })}</legend>
              <Input label={say('Up to (doses)')} name={`step-${row}-upToDoses`} given={given} figures />
              <Input label={say('Days')} name={`step-${row}-days`} given={given} figures />
            </fieldset>
          ))}
        </div>
      </details>
    </Card>
    <Card title={say('Dry-cow product')}>
      <Tick label={say('It is given to dry a cow off')} name="dryCow" given={given} />
      <div class="row">
        <Input label={say('At least so many days before calving')} name="minimumDryDays" given={given} figures />
        <Input
          label={say('No beef, hours after calving')}
          name="meatHoursAfterCalving"
          given={given}
          figures
          hint={say('Beside the meat days above, the later counts')}
        />
        <Choice
          label={say('Calved too early')}
          name="earlyCalving"
          given={given}
          options={[['', say('not said: held until the vet says')], ...choicesOf(EARLY_WORDS)]}
        />
      </div>
      <Ticks
        label={say('Milk hold after calving')}
        name="afterCalving"
        given={given}
        options={afterChoices()}
        oneOnly
      />
      <div class="row">
        <Input label={say('Hours after calving')} name="afterHours" given={given} figures />
        <Input label={say('Milkings after calving')} name="afterMilkings" given={given} figures />
      </div>
    </Card>
    <Card title={say('Where the label ends')}>
      <p class="hint">{say('Beyond these it is off-label use, and the vet’s time is wanted.')}</p>
      <div class="row">
        <Input label={say('Doses at the most')} name="maxDoses" given={given} figures />
        <Input label={say('Hours between doses at the least')} name="minIntervalHours" given={given} figures />
        <Input label={say('Not from an age of (months)')} name="notFromAgeMonths" given={given} figures />
      </div>
      <Tick label={say('Not authorised for animals whose milk people drink')} name="notForMilkAnimals" given={given} />
      <Tick label={say('Not authorised for animals that people eat')} name="notForFoodAnimals" given={given} />
      <Tick
        label={say('No longer used on this farm')}
        name="retired"
        given={given}
        hint={say('Its holds go on; a dose given after this is asked about')}
      />
    </Card>
  </>
);
