import type { Drawing } from '../../server/core/summary/drawing/drawing.ts';

/**
 * Shows one signal of a drawing from end to end: its links keep their colour while the rest steps back. With no element,
 * everything is shown again.
 */
export function traceSignal(svg: SVGSVGElement, element: Element | null, drawing: Drawing): void {
  for (const traced of svg.querySelectorAll('.traced')) traced.classList.remove('traced');
  const ids = element ? linksOfSignal(element, drawing) : new Set<string>();
  const links = [...svg.querySelectorAll<SVGElement>('.link')].filter(({ dataset }) =>
    ids.has(dataset.id ?? ''),
  );
  svg.classList.toggle('tracing', links.length > 0);
  const ends = new Set<string>();
  for (const link of links) {
    link.classList.add('traced');
    link.closest('.net')?.classList.add('traced');
    ends.add(link.dataset.from ?? '').add(link.dataset.to ?? '');
  }
  for (const terminal of svg.querySelectorAll<SVGElement>('.terminal')) {
    if (!ends.has(terminal.dataset.id ?? '')) continue;
    terminal.classList.add('traced');
    terminal.closest('.part')?.classList.add('traced');
  }
}

/** More signals than these share a wire only where it is a rail, and a rail is shown as what it is. */
const MOST_SHARING = 3;

/** The links of the signals that run through a link or a terminal; on a rail, all that hangs together with it. */
export function linksOfSignal(element: Element, drawing: Drawing): ReadonlySet<string> {
  const starts = startsOf(element, drawing);
  const ways = (drawing.ways ?? []).filter((way) => way.some((id) => starts.has(id)));
  if (ways.length > 0 && ways.length <= MOST_SHARING) return new Set(ways.flat());
  return spread(starts, drawing);
}

function startsOf(element: Element, { links }: Drawing): ReadonlySet<string> {
  const link = element.closest<SVGElement>('.link')?.dataset.id;
  if (link !== undefined) return new Set([link]);
  const terminal = element.closest<SVGElement>('.terminal')?.dataset.id;
  return new Set(links.filter(({ from, to }) => from === terminal || to === terminal).map(({ id }) => id));
}

/** Everything that shares terminals with some links, directly or through others, through fuses and contacts too. */
function spread(starts: ReadonlySet<string>, { links, passes = [] }: Drawing): ReadonlySet<string> {
  const at = new Map<string, { ids: string[]; next: string[] }>();
  const place = (terminal: string) => {
    const there = at.get(terminal) ?? { ids: [], next: [] };
    at.set(terminal, there);
    return there;
  };
  for (const { id, from, to } of links) {
    place(from).ids.push(id);
    place(to).ids.push(id);
    place(from).next.push(to);
    place(to).next.push(from);
  }
  for (const [a, b] of passes) {
    place(a).next.push(b);
    place(b).next.push(a);
  }
  const seen = new Set<string>();
  const open = links.filter(({ id }) => starts.has(id)).flatMap(({ from, to }) => [from, to]);
  for (let terminal = open.pop(); terminal !== undefined; terminal = open.pop()) {
    if (seen.has(terminal)) continue;
    seen.add(terminal);
    open.push(...(at.get(terminal)?.next ?? []));
  }
  return new Set([...seen].flatMap((terminal) => at.get(terminal)?.ids ?? []));
}
