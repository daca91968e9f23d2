import type { DrawnLink } from './drawing.ts';

/** Gathers links that share terminals, directly or through others, in the order in which each net first occurs. */
export function groupIntoNets<Link extends { readonly link: Pick<DrawnLink, 'from' | 'to'> }>(
  links: readonly Link[],
): readonly (readonly Link[])[] {
  const parent = new Map<string, string>();
  const rootOf = (id: string): string => {
    let root = id;
    for (let next = parent.get(root); next !== undefined && next !== root; next = parent.get(root))
      root = next;
    return root;
  };
  for (const { link } of links) parent.set(rootOf(link.to), rootOf(link.from));
  const nets = new Map<string, Link[]>();
  for (const link of links) {
    const root = rootOf(link.link.from);
    const net = nets.get(root);
    if (net) net.push(link);
    else nets.set(root, [link]);
  }
  return [...nets.values()];
}
