const SVG = 'http://www.w3.org/2000/svg';

/**
 * Gives each part of a picture its place in the order of the keyboard, and a handle to fold it by. The titles are for
 * files: here the card says more, and two of them would lie over each other.
 */
export function makeParts(svg: SVGSVGElement): void {
  for (const title of svg.querySelectorAll('title')) title.remove();
  for (const part of svg.querySelectorAll<SVGGElement>('.part')) {
    part.setAttribute('tabindex', '0');
    const isFolded = part.dataset.folded !== undefined;
    if (!isFolded && !part.querySelector('.terminal')) continue;
    const handle = document.createElementNS(SVG, 'text');
    handle.setAttribute('class', 'fold');
    handle.setAttribute('x', String((part.querySelector('rect')?.width.baseVal.value ?? 0) - 8));
    handle.setAttribute('y', '33');
    handle.setAttribute('text-anchor', 'end');
    handle.setAttribute('aria-hidden', 'true'); // The f key does the same, as the frame says.
    handle.textContent = isFolded ? '+' : '−';
    part.append(handle);
  }
}

/** Marks everything in a drawing whose name or label contains a text, in reading order of the drawing's source. */
export function findIn(svg: SVGSVGElement, text: string): readonly Element[] {
  for (const old of svg.querySelectorAll('.found, .found-now')) old.classList.remove('found', 'found-now');
  const wanted = text.trim().toLowerCase();
  if (wanted === '') return [];
  const matches = [...svg.querySelectorAll<SVGElement>('.part, .terminal, .link')].filter(({ dataset }) =>
    (dataset.name ?? dataset.label ?? '').toLowerCase().includes(wanted),
  );
  for (const match of matches) match.classList.add('found');
  return matches;
}
