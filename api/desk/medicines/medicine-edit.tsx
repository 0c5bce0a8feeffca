/**
 * Listing a medicine, and changing what is listed. A label that changed counts from its time on; a label that was typed
 * wrongly is struck and listed again at the same time. Either way the cows whose holds change are seen first.
 */

import { type Listing, medicineKey } from '../../../projections/farm.ts';
import { type Instant, instantText } from '../../../shared/instant.ts';
import { mayWrite } from '../../devices/roles.ts';
import { tonightFrom } from '../../tonight.ts';
import { type Ask, type Desk, type DeskPage, savingOf } from '../ask.ts';
import { type AtHand, atHand } from '../at-hand.ts';
import { Carried, NO_PROBLEMS, type Problems, typedOf } from '../controls.tsx';
import { effectOf } from '../farm/farm-effect.ts';
import { EffectShown } from '../farm/farm-effect-shown.tsx';
import { goTo, page } from '../layout.tsx';
import { asIf, checkDrafts, type Draft, idOf, SAVED_ALREADY, save, savedBefore } from '../saving.ts';
import { inEnglish, SaidProblem, say } from '../say.tsx';
import { readWall, wallText } from '../wall-time.ts';
import { LabelCaution } from './medicine-form.tsx';
import { LabelShown, labelPage } from './medicine-page.tsx';
import { readLabel } from './medicine-read.ts';
import { typedLabel } from './medicine-typed.ts';
import { inForce } from './medicine-words.ts';

export const medicineEditPages: readonly DeskPage[] = [
  {
    method: 'get',
    path: '/medicines/edit',
    right: 'herd',
    run: (desk, ask) => {
      const hand = atHand(desk, ask.visitor, '/medicines');
      if (hand === undefined) return goTo('/begin');
      if (!mayWrite(ask.visitor.caller.role, 'medicine-listed'))
        throw new SaidProblem('not-allowed', 'The manager lists medicines and changes what is listed');
      const name = ask.url.searchParams.get('name') ?? '';
      const latest = latestOf(hand, name);
      const typed = typedLabel(latest?.data ?? (name === '' ? {} : { name }));
      const at = wallText(zoneOf(desk, hand), desk.now());
      const fields = new Map(typed.names().map((each) => [each, typed.all(each)]));
      return labelPage(hand, ask.visitor.once(), latest, {
        typed: typedOf(new Map([...fields, ['at', [at]], ['atShown', [at]]])),
        problems: NO_PROBLEMS,
      });
    },
  },
  { method: 'post', path: '/medicines/edit', right: 'push', run: (desk, ask) => changed(desk, ask) },
];

const zoneOf = (desk: Desk, { schedule }: AtHand) => schedule.inForceAt(desk.now()).zone;

/** The last listing of a name, in force already or not. */
const latestOf = ({ answer }: AtHand, name: string): Listing | undefined =>
  answer.known.farm.listings.get(medicineKey(name))?.at(-1);

interface Meant {
  readonly at: Instant;
  readonly mistake: boolean;
}

/** From when it counts, or what is wrong with that. */
const meantOf = (desk: Desk, hand: AtHand, { form }: Ask, base: Listing | undefined): Meant | Problems => {
  const how = form.one('how');
  if (base !== undefined && how === undefined)
    return new Map([['how', say('Say whether the label changed, or was typed wrongly: they count differently')]]);
  if (base !== undefined && how === 'mistake')
    return form.one('reason') === undefined
      ? new Map([['reason', say('Say what was wrong with it, such as: hours of another package')]])
      : { at: base.at, mistake: true };
  const said = form.one('at');
  const now = desk.now();
  const after = base === undefined || now > base.at ? now : ((base.at + 1) as Instant);
  // Nobody touched it: then it is now, to the second.
  if (said === undefined || said === form.one('atShown')) return { at: after, mistake: false };
  const at = readWall(zoneOf(desk, hand), said);
  if (!at.ok) return new Map([['at', at.problem]]);
  if (base !== undefined && at.value <= base.at)
    return new Map([
      [
        'at',
        say(
          'The label was listed at {time}; a change counts from after that. Was that listing wrong? Then choose "typed wrongly"',
          { time: hand.format.time(instantText(base.at)) },
        ),
      ],
    ]);
  return { at: at.value, mistake: false };
};

const changed = (desk: Desk, ask: Ask): Response | Promise<Response> => {
  const { form, visitor } = ask;
  const saving = savingOf(form);
  const hand = atHand(desk, visitor, '/medicines');
  if (hand === undefined) return goTo('/begin');
  const once = form.one('once') ?? '';
  const { listings } = hand.answer.known.farm;
  const name = form.one('name') ?? '';
  const latest = latestOf(hand, name);
  const baseId = form.one('base');
  // Struck since, where it was typed wrongly and this very form mended it.
  const base = baseId === undefined ? undefined : listedBy(desk, baseId);
  const again = (problems: Problems, from = base, as = once) =>
    labelPage(hand, as, from, { typed: form, problems }, problems.size === 0 ? 200 : 400);
  const step = form.one('step');
  if (step === 'edit') return again(NO_PROBLEMS);

  const read = readLabel(form, base?.data ?? {});
  const meant = meantOf(desk, hand, ask, base);
  if (!read.ok || !('at' in meant)) {
    const problems = new Map([...(read.ok ? [] : read.problems), ...('at' in meant ? [] : meant)]);
    return again(problems);
  }
  const drafts: Draft[] = [
    { type: 'medicine-listed', at: meant.at, data: read.data },
    ...(meant.mistake && base !== undefined
      ? [
          {
            type: 'entry-struck' as const,
            at: desk.now(),
            data: { entry: base.id, reason: form.one('reason'), instead: idOf(saving, 0) },
          },
        ]
      : []),
  ];
  const before = savedBefore(desk, saving, drafts);
  if (before === 'same') return goTo('/medicines?done=listed');
  if (before === 'other') return again(new Map([['', say(SAVED_ALREADY)]]), latest, visitor.once());
  if (base === undefined && latest !== undefined)
    return again(
      new Map([
        [
          'name',
          say('{name} is on the list already; open it there to change it, or give another name', {
            name: latest.data.name,
          }),
        ],
      ]),
    );
  if (base !== undefined && latest?.id !== base.id)
    return again(
      new Map([
        [
          '',
          say(
            'While you filled this in, this medicine was listed anew by somebody else. What you typed is still here; look at what stands now (above), then save again',
          ),
        ],
      ]),
      latest,
    );
  const checked = checkDrafts(desk, visitor, saving, drafts);
  if (!checked.ok)
    return again(
      new Map(checked.troubles.map(({ problem, pointer }) => [pointer === '/time' ? 'at' : '', inEnglish(problem)])),
    );
  if (step === 'save') {
    save(desk, checked.passed);
    return goTo('/medicines?done=listed');
  }
  const now = desk.now();
  const milking = hand.answer.milking.id;
  const effect = effectOf(
    tonightFrom(desk.knowing.now(), { milking }, now),
    tonightFrom(asIf(desk, checked.passed), { milking }, now),
  );
  const was = inForce(listings.get(medicineKey(read.data.name)) ?? [], now)?.data;
  return page({
    ...hand.frame,
    title: say('Read this, then save'),
    children: (
      <>
        <LabelCaution />
        <p class="lead">
          {say(
            meant.mistake
              ? 'Nothing is saved yet. {name}, as it should have been listed on {time}:'
              : 'Nothing is saved yet. {name}, on the list from {time}:',
            { name: read.data.name, time: hand.format.time(instantText(meant.at)) },
          )}
        </p>
        <LabelShown data={read.data} was={was} />
        {'unknown' === read.data.milkHold ? (
          <p class="problem">
            {say('Milk hold unknown: every cow that has it is held without end until the vet says.')}
          </p>
        ) : null}
        <EffectShown effect={effect} hand={hand} at={hand.format.milking(milking)} />
        <p class="hint">
          {say(
            'Cows that are dry now show in this table once they calve; what a dry-cow label says after calving counts for them then.',
          )}
        </p>
        <form method="post" action="/medicines/edit">
          <input type="hidden" name="once" value={once} />
          <Carried typed={form} />
          <p class="actions">
            <button type="submit" name="step" value="save">
              {say('Save the label')}
            </button>
            <button class="quiet" type="submit" name="step" value="edit">
              {say('Change something')}
            </button>
          </p>
        </form>
      </>
    ),
  });
};

/** A listing by its id, also one that was struck since. */
const listedBy = (desk: Desk, id: string): Listing | undefined =>
  desk.knowing
    .now()
    .known.ids.find(id)
    .flatMap((entry) =>
      entry.id === id && entry.type === 'medicine-listed' ? [{ id, at: entry.at, data: entry.data }] : [],
    )[0];
