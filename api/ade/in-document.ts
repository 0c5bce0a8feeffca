/**
 * A document of the exchange standard as single resources: one resource, an array, a collection, or collections in an array or an
 * object. Doses inside a treatment program and animals inside a group event become resources of their own. A resource without
 * meta, source, sourceId or a readable modified is refused here, by name.
 */
import { isBarnNumber, officialDigits } from '../../shared/cow-number.ts';
import { sha256 } from '../../shared/fingerprint.ts';
import type { Instant } from '../../shared/instant.ts';
import { type Fields, fieldsOf, isJson, type Json } from './in-fields.ts';
import { baseOf, type Incoming } from './in-resource.ts';
import type { Identifier } from './resource.ts';

export interface TurnedBack {
  readonly name: string;
  readonly problem: string;
  readonly cows: readonly string[];
  readonly text: string;
  /** Whose name a group event of unnamed animals gives. */
  readonly group?: { readonly name: string | undefined; readonly at: Instant | undefined };
}

export interface Document {
  readonly resources: readonly Incoming[];
  readonly refused: readonly TurnedBack[];
  readonly notes: readonly string[];
}

export const readDocument = (document: unknown): Document => {
  const notes: string[] = [];
  const found: Json[] = [];
  const refused: TurnedBack[] = [];
  flatten(document, found, refused, notes, 0);
  const byIdentity = new Map<string, Incoming>();
  for (const raw of found) {
    const read = incomingOf(raw);
    if ('problem' in read) refused.push(read);
    else
      for (const each of individuals(read, refused)) {
        const key = `${each.base} ${each.part}`;
        const have = byIdentity.get(key);
        if (have === undefined || have.modified < each.modified) byIdentity.set(key, each);
      }
  }
  return { resources: [...byIdentity.values()], refused, notes };
};

const DEEPEST = 8;

const flatten = (value: unknown, found: Json[], refused: TurnedBack[], notes: string[], depth: number): void => {
  if (Array.isArray(value) && depth < DEEPEST) {
    for (const each of value) flatten(each, found, refused, notes, depth + 1);
    return;
  }
  if (isJson(value) && typeof value.resourceType === 'string') {
    found.push(value);
    return;
  }
  // What has a meta or an animal of its own is a resource that lost its type, not a list of others.
  const isList = isJson(value) && !('meta' in value) && !('animal' in value);
  const lists = isList ? Object.values(value).filter(Array.isArray) : [];
  if (isJson(value) && lists.length > 0 && depth < DEEPEST) {
    sayPage(value.view, notes);
    for (const list of lists) flatten(list, found, refused, notes, depth + 1);
    return;
  }
  // An empty collection is a list of none.
  if (isJson(value) && isJson(value.view)) return;
  refused.push({
    name: 'an item of the file',
    problem: 'it is not a resource: it has no "resourceType"; ask for the file to be written again',
    cows: isJson(value) ? readableCows(value) : [],
    text: JSON.stringify(value) ?? 'nothing',
  });
};

const sayPage = (view: unknown, notes: string[]): void => {
  if (isJson(view) && typeof view.next === 'string')
    notes.push(`the file is one page of a longer list; import the next one too (${view.next.slice(0, 200)})`);
};

/** `https://…/icarTreatmentEventResource` and `icarTreatmentEvent` are the same kind. */
export const kindOf = (resourceType: string): string =>
  (resourceType.split(/[/:#]/).at(-1) ?? resourceType)
    .replace(/\.json$/i, '')
    .replace(/^icar/i, '')
    .replace(/Resource$/i, '')
    .toLowerCase();

const identifierIn = (fields: Fields, name: string): Identifier | undefined => {
  const identifier = fields.object(name);
  const id = identifier?.text('id');
  return id === undefined ? undefined : { id, scheme: identifier?.text('scheme') ?? '' };
};

interface Around {
  readonly source: string;
  readonly sourceId: string;
  readonly modified: Instant;
  readonly creator: string | undefined;
  readonly deleted: boolean;
}

/** `around`: whose meta a resource inside another one falls back on, with a part of its own. */
const incomingOf = (raw: Json, around?: Around, part = ''): Incoming | TurnedBack => {
  const fields = fieldsOf(raw);
  const type = fields.text('resourceType') ?? 'a resource';
  const kind = kindOf(type);
  const animal = identifierIn(fields, kind === 'animalcore' ? 'identifier' : 'animal');
  const meta = fields.object('meta');
  const sourceId = meta?.text('sourceId');
  const id = sourceId ?? fields.text('id');
  const name = `${type}${id === undefined ? '' : ` "${id}"`}${animal === undefined ? '' : ` of ${animal.id}`}`;
  const text = JSON.stringify(raw);
  fields.pass('id', '@self', '@context', '@type', '@id');
  const turnBack = (problem: string): TurnedBack => ({
    name,
    problem: `${name}: ${problem}`,
    cows: readableCows(raw),
    text,
  });
  const own = meta === undefined || sourceId === undefined ? around : undefined;
  if (own !== undefined) {
    meta?.pass('source', 'modified', 'created', 'creator');
    return made({ ...own, part });
  }
  if (meta === undefined)
    return turnBack(
      'it has no "meta", so nobody can tell whether it is known already; ask for it to be sent with its meta',
    );
  const source = meta.text('source');
  if (source === undefined) return turnBack('its meta names no "source"; ask for it to be sent with its source');
  if (sourceId === undefined)
    return turnBack(
      'its meta has no "sourceId", so nobody can tell it from another; ask for it to be sent with its id',
    );
  const modified = meta.time('modified');
  if (modified === undefined) return turnBack('its meta does not say when it was last "modified"');
  if (!modified.ok) return turnBack(`its meta's "modified": ${modified.problem}`);
  const validFrom = meta.time('validFrom');
  meta.pass('created');
  return made({
    source,
    sourceId,
    modified: modified.value,
    creator: meta.text('creator'),
    deleted: meta.flag('isDeleted') === true,
    part: '',
    ...(validFrom?.ok === true ? { validFrom: validFrom.value } : {}),
  });

  function made(of: Around & { readonly part: string; readonly validFrom?: Instant }): Incoming {
    const { source, sourceId, modified, creator, deleted } = of;
    const base = baseOf(source, sourceId);
    const { validFrom } = of;
    const shell = {
      kind,
      name,
      fields,
      animal,
      text,
      source,
      sourceId,
      base,
      modified,
      creator,
      deleted,
      validFrom,
      part: of.part,
    };
    return { ...shell, nested: kind === 'treatmentprogramevent' ? doses(shell) : [] };
  }
};

/** The treatments of a program; the animal is the program's where they don't repeat it. */
const doses = (program: Omit<Incoming, 'nested'>): Incoming[] =>
  program.fields.objects('treatments').flatMap((dose, index) => {
    const animal = program.fields.raw.animal;
    const raw = {
      resourceType: 'icarTreatmentEventResource',
      ...(animal === undefined ? {} : { animal }),
      ...dose.raw,
    };
    dose.pass(...Object.keys(dose.raw));
    const part = `t${index + 1}`;
    const own = incomingOf(raw, program, part);
    // A meta that cannot be used is no reason to lose the dose: it falls back on the program's.
    const read = 'problem' in own ? incomingOf(without(raw, ['meta']), program, part) : own;
    return 'problem' in read ? [] : [{ ...read, deleted: read.deleted || program.deleted }];
  });

const GROUP_EVENTS: Readonly<Record<string, string>> = {
  grouptreatmentevent: 'icarTreatmentEventResource',
  groupmovementarrivalevent: 'icarMovementArrivalEventResource',
  groupmovementdepartureevent: 'icarMovementDepartureEventResource',
  groupmovementdeathevent: 'icarMovementDeathEventResource',
  groupmovementbirthevent: 'icarMovementBirthEventResource',
};

/** One resource an animal. A group event that doesn't name all its animals holds the whole group (R-27). */
const individuals = (group: Incoming, refused: TurnedBack[]): Incoming[] => {
  const resourceType = GROUP_EVENTS[group.kind];
  if (resourceType === undefined) return [group];
  const { fields } = group;
  const embedded = fields.object('embeddedAnimalSet');
  const members = embedded?.objects('member') ?? [];
  const reference = fields.object('animalSetReference')?.object('identifier')?.text('id');
  const name = reference ?? embedded?.text('name') ?? embedded?.text('id');
  const count = fields.number('countObserved');
  const at = fields.time('eventDateTime');
  if (!group.deleted && (members.length === 0 || (count !== undefined && count > members.length))) {
    const says =
      members.length === 0
        ? 'it names no animals'
        : `it speaks of ${count} animals and names ${members.length} of them`;
    refused.push({
      name: group.name,
      problem: `${group.name}: ${says}${name === undefined ? '' : ` (group "${name}")`}; every cow of the group is held until somebody says which it was`,
      cows: [],
      text: group.text,
      group: { name, at: at?.ok === true ? at.value : undefined },
    });
  }
  if (members.length === 0) return group.deleted ? [group] : [];
  const { dosePerAnimal, ...shared } = without(fields.raw, OF_THE_GROUP);
  return members.flatMap((member) => {
    const id = member.text('id') ?? '';
    const own = {
      ...shared,
      resourceType,
      animal: member.raw,
      ...(dosePerAnimal === undefined ? {} : { dose: dosePerAnimal }),
    };
    const read = incomingOf(own, group, `m${sha256(id).slice(0, 8)}`);
    return 'problem' in read ? [] : [{ ...read, text: group.text, name: `${group.name} of ${id}` }];
  });
};

/** What belongs to the group, not to each of its animals; its meta is taken over whole. */
const OF_THE_GROUP = [
  'meta',
  'embeddedAnimalSet',
  'groupMethod',
  'inventoryClassification',
  'countObserved',
  'animalSetReference',
];

const without = (raw: Json, names: readonly string[]): Json =>
  Object.fromEntries(Object.entries(raw).filter(([name]) => !names.includes(name)));

/** Numbers in the plain view of a resource that cannot be taken: whom it may concern. */
export const readableCows = (raw: Json): string[] => {
  const ids = [raw.animal, raw.identifier].flatMap((each) => (isJson(each) ? [each.id] : []));
  return [...ids, raw.managementTag]
    .map((each) => (typeof each === 'string' || typeof each === 'number' ? String(each).trim() : ''))
    .flatMap((number) => (isBarnNumber(number) || officialDigits(number) !== undefined ? [number] : []));
};
