import { expect, test } from 'vitest';
import { createLoader } from '../../server/command/load.ts';
import { EXAMPLE_FILE, readExample } from '../support/example.ts';

test('cures that look through the library find it on the command line as in an editor', async () => {
  const text = readExample().replaceAll('generic/inductive-pnp-nc', 'generic/inductive-npn-nc');
  const { fettle, analysis } = await createLoader()(EXAMPLE_FILE, text);
  const finding = fettle.findings(analysis).find(({ code }) => code === 'polarity/sensor-kind');
  expect(finding?.fixes?.map(({ title }) => title)).toContain('Use generic/inductive-pnp-nc for home-x');
});
