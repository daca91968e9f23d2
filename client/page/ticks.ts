/**
 * The boxes that can be ticked: elements with the role of a checkbox and a `data-tick` of their own. What is ticked
 * belongs to the page, not to the file.
 */
export function showTicks(root: HTMLElement, ticked: readonly string[]): void {
  for (const box of root.querySelectorAll<HTMLElement>('[data-tick]')) {
    const checked = String(ticked.includes(box.dataset.tick ?? ''));
    if (box.ariaChecked !== checked) box.ariaChecked = checked;
  }
}

/** Ticks or unticks one box and returns what is ticked now. */
export function toggleTick(ticked: readonly string[], id: string): string[] {
  return ticked.includes(id) ? ticked.filter((other) => other !== id) : [...ticked, id];
}
