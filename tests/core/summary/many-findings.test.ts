import { expect, test } from 'vitest';
import { createFettle } from '../../../server/core/fettle.ts';
import { itemView } from '../../../server/core/summary/item-view.ts';
import { printHtml } from '../../../server/core/summary/view.ts';
import { worldOf } from '../../support/world.ts';

test('of very many findings the gravest are listed, and the others counted', () => {
  const fettle = createFettle(worldOf(new Map()));
  const links = Array.from({ length: 300 }, (_, index) => `  - a-${index}.T -> b-${index}.T`);
  const analysis = fettle.analyse('x.machine.yaml', `wiring:\n${links.join('\n')}\n`);
  const count = fettle.findings(analysis).length;
  expect(count).toBeGreaterThan(300);
  const item = fettle.summary(analysis).items.find(({ id }) => id === 'findings');
  const view = item && itemView(item);
  const printed = view ? printHtml(view) : '';
  expect(printed.match(/<li class="finding/g)).toHaveLength(100);
  expect(printed).toContain(`and ${count - 100} more`);
  expect(printed).toContain('<li class="finding error"');
});
