/** The shape of what goes out: resources of the open ICAR Animal Data Exchange JSON standard (1.3.2), collected by type. */

export interface Meta {
  readonly source: string;
  readonly sourceId: string;
  readonly modified: string;
  readonly created?: string;
  readonly creator?: string;
  readonly isDeleted?: true;
  readonly validFrom?: string;
}

export interface Identifier {
  readonly id: string;
  readonly scheme: string;
}

export interface Resource {
  readonly resourceType: string;
  readonly meta: Meta;
  readonly [field: string]: unknown;
}

export interface Collection {
  readonly view: { readonly totalItems: number };
  readonly member: readonly Resource[];
}

/** Leaves out what is not there, so that no field is written as nothing. */
export const given = (fields: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  Object.fromEntries(
    Object.entries(fields).filter(([, value]) => value !== undefined && !(Array.isArray(value) && value.length === 0)),
  );

/** One collection a resource type, in the order the types first come. */
export const collected = (resources: readonly Resource[]): Collection[] => {
  const byType = new Map<string, Resource[]>();
  for (const resource of resources) {
    const have = byType.get(resource.resourceType);
    if (have === undefined) byType.set(resource.resourceType, [resource]);
    else have.push(resource);
  }
  return [...byType.values()].map((member) => ({ view: { totalItems: member.length }, member }));
};
