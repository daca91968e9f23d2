import { expect, test } from 'vitest';
import { analyseTexts } from '../support/marked.ts';

function told(screw: string) {
  const text = `machine: Toy mill\naxes:\n  X:\n    travel: 300 mm\n    screw: { ${screw} }\n`;
  const { findings } = analyseTexts(new Map([['mill.machine.yaml', text]]));
  return findings.filter(({ code }) => code === 'motion/two-leads');
}

test('a lead, or pitch and starts, or all three that agree', () => {
  expect(told('lead: 8 mm')).toEqual([]);
  expect(told('pitch: 2 mm, starts: 4')).toEqual([]);
  expect(told('lead: 8 mm, pitch: 2 mm, starts: 4')).toEqual([]);
  expect(told('lead: 5.08 mm, pitch: 0.2 in, starts: 1')).toEqual([]);
  // 12 threads to the inch are 2.1167 mm: what is rounded is not another lead.
  expect(told('lead: 8.467 mm, pitch: 2.117 mm, starts: 4')).toEqual([]);
});

test('a pitch alone leaves the starts open', () => {
  expect(told('lead: 10 mm, pitch: 5 mm')).toEqual([]);
  expect(told('lead: 2 mm, pitch: 5 mm')).toHaveLength(1);
  expect(told('lead: 5 mm, pitch: 2 mm').map(({ message }) => message)).toEqual([
    'The screw of X has a lead of 5 mm, which no number of starts makes of a pitch of 2 mm. Turn it once, measure how far the nut moves, and keep what is right.',
  ]);
});

test('starts alone say nothing of the lead', () => {
  expect(told('lead: 10 mm, starts: 2')).toEqual([]);
});

test('both leads are told, and either can be kept', () => {
  const [found] = told('lead: 4 mm, pitch: 2 mm, starts: 4');
  expect(found?.message).toBe(
    'The screw of X has a lead of 4 mm, but a pitch of 2 mm with 4 starts makes 8 mm. Turn it once, measure how far the nut moves, and keep what is right.',
  );
  expect(found?.fixes?.map(({ title, edits }) => [title, edits[0]?.text])).toEqual([
    ['Change the lead to 8 mm', '8 mm'],
    ['Change the starts to 2', '2'],
  ]);
  expect(told('lead: 0.25 in, pitch: 2 mm, starts: 1')[0]?.fixes?.map(({ title }) => title)).toEqual([
    'Change the lead to 0.0787402 in',
  ]);
});
