import { say } from '../../language/say.ts';
import { h, type ViewElement } from '../view.ts';
import { type Block, type Caption, type Row, SIZE, subtitleOf } from './block.ts';
import type { DrawnPart } from './drawing.ts';
import type { Point } from './layout.ts';
import { round } from './route.ts';
import { drawSymbol } from './symbols.ts';
import { fitText } from './text-width.ts';

/** True when a wire ends at this rim of this terminal. */
export type IsJoined = (terminal: number, rim: 'left' | 'right') => boolean;

/** Draws a part as a block: head with name and kind, its terminals in printed order along the sides. */
export function drawBlock(part: DrawnPart, block: Block, at: Point, isJoined: IsJoined): ViewElement {
  const inner = block.width - 2 * SIZE.margin;
  return h(
    'g',
    {
      class: 'part',
      'data-id': part.id,
      'data-class': part.partClass,
      'data-name': part.name,
      'data-folded': block.isFolded ? 'yes' : undefined,
      role: 'group',
      'aria-label': `${part.name}, ${subtitleOf(part)}, ${countTerminals(part)}`,
      transform: `translate(${round(at.x)} ${round(at.y)})`,
    },
    h('title', {}, `${part.name}: ${subtitleOf(part)}`),
    h('rect', {
      class: 'block',
      width: block.width,
      height: block.height,
      rx: 6,
      fill: 'none',
      stroke: 'currentColor',
      'stroke-width': 1,
    }),
    h('path', {
      class: 'block-rule',
      d: `M0 ${SIZE.head - 4}H${block.width}`,
      stroke: 'currentColor',
      'stroke-opacity': 0.25,
      fill: 'none',
    }),
    h(
      'text',
      {
        class: 'part-name',
        x: SIZE.margin,
        y: 17,
        'font-size': SIZE.name,
        'font-weight': 600,
        fill: 'currentColor',
      },
      fitText(part.name, SIZE.name * 1.08, inner - SIZE.symbol),
    ),
    h(
      'text',
      {
        class: 'part-kind',
        x: SIZE.margin,
        y: 30,
        'font-size': SIZE.small,
        fill: 'currentColor',
        'fill-opacity': 0.75,
      },
      fitText(subtitleOf(part), SIZE.small, inner),
    ),
    drawSymbol(part.partClass, block.width - 8),
    part.rail && !block.isFolded ? drawRail(block) : undefined,
    block.captions.map((caption) => drawCaption(caption, block)),
    block.rows.map((row) => drawTerminal(part, row, block, isJoined)),
  );
}

/** A bar that joins all its terminals is drawn as one. */
function drawRail({ width, rows }: Block): ViewElement {
  const ys = rows.map(({ y }) => y);
  const [top, bottom] = [Math.min(...ys), Math.max(...ys)];
  const middle = round(width / 2);
  return h(
    'g',
    { class: 'rail' },
    h('path', {
      d: ys.map((y) => `M0 ${round(y)}H${width}`).join(''),
      stroke: 'currentColor',
      'stroke-width': 1,
      'stroke-opacity': 0.35,
      fill: 'none',
    }),
    h('line', {
      x1: middle,
      y1: round(top - 7),
      x2: middle,
      y2: round(bottom + 7),
      stroke: 'currentColor',
      'stroke-width': 4,
    }),
  );
}

function countTerminals({ terminals }: DrawnPart): string {
  const wired = terminals.filter((terminal) => terminal.wired).length;
  return say`${wired} of ${terminals.length} terminals wired`;
}

function drawCaption({ text, side, y }: Caption, { width }: Block): ViewElement {
  return h(
    'text',
    {
      class: 'group-name',
      ...placeText(side === 'both' ? 'left' : side, y, width),
      'font-size': SIZE.caption,
      'letter-spacing': 0.4,
      fill: 'currentColor',
      'fill-opacity': 0.65,
    },
    text,
  );
}

function drawTerminal(
  part: DrawnPart,
  { terminal, side, y }: Row,
  { width }: Block,
  isJoined: IsJoined,
): ViewElement | undefined {
  const drawn = part.terminals[terminal];
  if (drawn === undefined) return undefined;
  const joined = (rim: 'left' | 'right'): boolean =>
    side === 'both' ? isJoined(terminal, rim) : drawn.wired;
  const text =
    side === 'both'
      ? { x: round(width / 2 - 7), y: round(y + 4), 'text-anchor': 'end', class: 'through' }
      : placeText(side, y, width);
  return h(
    'g',
    {
      class: drawn.wired ? 'terminal' : 'terminal unwired',
      'data-id': drawn.id,
      'data-name': drawn.name,
      role: 'img',
      'aria-label': drawn.wired
        ? say`Terminal ${drawn.name} of ${part.name}`
        : say`Terminal ${drawn.name} of ${part.name}, not wired`,
    },
    h('title', {}, `${part.name}.${drawn.name}${drawn.wired ? '' : say` (not wired)`}`),
    h('rect', {
      class: 'terminal-hit',
      x: side === 'right' ? width / 2 : 1,
      y: y - SIZE.row / 2,
      width: side === 'both' ? width - 2 : width / 2 - 1,
      height: SIZE.row,
      fill: 'transparent',
    }),
    side === 'right' ? undefined : drawContact(0, y, joined('left')),
    side === 'left' ? undefined : drawContact(width, y, joined('right')),
    h(
      'text',
      { ...text, 'font-size': SIZE.terminal, fill: 'currentColor', 'fill-opacity': drawn.wired ? 1 : 0.6 },
      drawn.name,
    ),
  );
}

/** The dot on the rim at which wires join: filled when one does, hollow when none does. */
function drawContact(x: number, y: number, joined: boolean): ViewElement {
  return h('circle', {
    class: 'contact',
    cx: x,
    cy: y,
    r: joined ? 2.6 : 2.2,
    fill: joined ? 'currentColor' : 'none',
    stroke: 'currentColor',
    'stroke-width': 1,
    'stroke-opacity': joined ? 1 : 0.5,
  });
}

function placeText(side: 'left' | 'right', y: number, width: number): Record<string, string | number> {
  const baseline = round(y + 4);
  return side === 'left'
    ? { x: SIZE.margin, y: baseline }
    : { x: width - SIZE.margin, y: baseline, 'text-anchor': 'end' };
}
