import type { DrawnLink } from './drawing.ts';
import { estimateWidth, fitText } from './text-width.ts';

/** What is written along a wire: its label and the letters of its colour, so that colour alone never tells. */
export function labelOf({ label, colour }: DrawnLink): string {
  const text = [label, colour].filter((word) => word !== undefined && word !== '').join(' ');
  return fitText(text, LABEL_SIZE, MOST_LABEL);
}

/** The size of the labels on wires. */
export const LABEL_SIZE = 8.5;

const MOST_LABEL = 76;
const MOST_CABLE = 36;

/** How far the end of an earth link reaches out of its part, symbol included. */
export const earthLength = (link: DrawnLink): number => labelWidth(link) + MORE_WIDTH + 12;

/** The room for ` +1`, which says that more wires end at a terminal. */
export const MORE_WIDTH = 14;

/** How wide the label of a wire is. */
export const labelWidth = (link: DrawnLink): number => estimateWidth(labelOf(link), LABEL_SIZE);

/** The name of the cable that a link runs in, as it is written beside the ring round its conductors. */
export const cableName = ({ cable }: DrawnLink): string =>
  cable === undefined ? '' : fitText(cable, LABEL_SIZE, MOST_CABLE);

/** The room that the ring and the name of its cable take. */
export const cableWidth = (link: DrawnLink): number =>
  link.cable === undefined ? 0 : estimateWidth(cableName(link), LABEL_SIZE) + 10;
