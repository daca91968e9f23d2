import { expect, it } from 'vitest';
import type { LoopStop } from '../../../server/core/summary/pictures/loop.ts';
import { drawLoop } from '../../../server/core/summary/pictures/loop-drawing.ts';

const stop = (name: string): LoopStop => ({
  terminal: 'drive.D-',
  by: 'element',
  name,
  shades: [],
  isInput: false,
  isContact: false,
  isOwn: false,
});

const namesIn = (name: string): string =>
  JSON.stringify(drawLoop({ stops: [stop(''), stop(name)], states: [] }, ''));

it('the name of a circuit is cut where it is long, and the figures behind it never are', () => {
  expect(namesIn('pulse, 1.2 V and 330 ohm')).toContain('"pulse, 1.2 V and 330 ohm"');
  const long = namesIn('direction of the third axis, 1.2 V and 330 ohm');
  expect(long).toContain('…, 1.2 V and 330 ohm"');
  expect(namesIn('a name without figures that is much too long for its place')).toMatch(/a name[^"]*…"/);
});
