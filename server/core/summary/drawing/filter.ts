import type { Drawing, Group } from './drawing.ts';

/** The groups in the order in which they are offered, with their names. */
export const GROUPS: readonly (readonly [group: Group, name: string])[] = [
  ['power', 'Power'],
  ['axes', 'Axes'],
  ['inputs', 'Inputs'],
  ['spindle', 'Spindle'],
];

/** The part of a drawing that one group of links makes up: these links, and of each part the terminals that they join. */
export function filterDrawing(drawing: Drawing, group: Group): Drawing {
  const links = drawing.links.filter((link) => link.group === group);
  const joined = new Set(links.flatMap(({ from, to }) => [from, to]));
  const parts = drawing.parts.flatMap((part) => {
    const terminals = part.terminals.filter(({ id }) => joined.has(id));
    return terminals.length > 0 ? [{ ...part, terminals }] : [];
  });
  return { ...drawing, parts, links };
}

/** What is printed of a drawing: the whole, and each group by itself where there are several. */
export function listViews(
  drawing: Drawing,
): readonly { readonly title: string; readonly drawing: Drawing }[] {
  const groups = groupsIn(drawing);
  const single = groups.length < 2 ? [] : groups;
  return [
    { title: 'Everything', drawing },
    ...single.map(([group, title]) => ({ title, drawing: filterDrawing(drawing, group) })),
  ];
}

/** The groups that a drawing has links of. */
export function groupsIn({ links }: Drawing): readonly (readonly [Group, string])[] {
  return GROUPS.filter(([group]) => links.some((link) => link.group === group));
}
