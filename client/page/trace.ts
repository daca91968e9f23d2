/**
 * Shows one net of a drawing from end to end: every link that shares a terminal with the given element, directly or
 * through others, keeps its colour while the rest steps back. With no element, everything is shown again.
 */
export function traceNet(svg: SVGSVGElement, element: Element | null): void {
  for (const traced of svg.querySelectorAll('.traced')) traced.classList.remove('traced');
  const links = element ? linksFrom(svg, element) : [];
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

function linksFrom(svg: SVGSVGElement, element: Element): readonly SVGElement[] {
  const net = element.closest('.net');
  if (net) return [...net.querySelectorAll<SVGElement>('.link')];
  const terminal = element.closest<SVGElement>('.terminal')?.dataset.id;
  if (terminal === undefined) return [];
  const link = [...svg.querySelectorAll<SVGElement>('.link')].find(
    ({ dataset }) => dataset.from === terminal || dataset.to === terminal,
  );
  return link ? linksFrom(svg, link) : [];
}
