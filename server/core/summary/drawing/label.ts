import type { DrawnLink } from './drawing.ts';

/** What is written along a wire: its label and the letters of its colour, so that colour alone never tells. */
export function labelOf({ label, colour }: DrawnLink): string {
  return [label, colour].filter((text) => text !== undefined && text !== '').join(' ');
}

/** The size of the labels on wires. */
export const LABEL_SIZE = 8.5;
