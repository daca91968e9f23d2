import { z } from 'zod';
import { cableLength } from './figures.ts';
import { link, terminalRef, text, wire } from './leaf.ts';
import { optional } from './section.ts';

const length = cableLength('5 mm', '500 m');

const linkText = link().describe(
  'From one terminal to another, `panel.XP -> drive-x.PUL-`. One end may go to several, `panel.5V -> drive-x.PUL+, drive-x.DIR+`, which is one link each. A wire colour may follow.',
);

const linkWithWire = z.strictObject({
  link: linkText,
  ...optional({
    wire: wire().describe('The conductor: its cross-section or gauge and its colour, such as `0.25 mm2 YE`.'),
    length: length.describe('How long the wire is from end to end, such as `0.6 m`.'),
    label: text().describe('What is written on the wire’s label, such as `W14`.'),
  }),
});

const cable = z.strictObject({
  cable: text().describe('The name of the cable, such as `K3`.'),
  links: z
    .array(z.union([linkText, linkWithWire]))
    .describe('What the conductors of the cable join, one link each.'),
  ...optional({
    wire: wire().describe(
      'How many conductors of which cross-section, and whether a screen is round them, such as `4 x 0.75 mm2 screened`.',
    ),
    length: length.describe('How long the cable is from end to end, such as `3.5 m`.'),
    screen: terminalRef('machine').describe(
      'Where the screen is joined, such as `panel-earth.1`. It is joined at one end only.',
    ),
  }),
});

/** Every link of the machine: alone, with its wire, or in a cable with others. */
export const wiring = z.array(
  z.union([
    linkText,
    linkWithWire.describe('A link with its wire.'),
    cable.describe('A cable: conductors that run together.'),
  ]),
);
