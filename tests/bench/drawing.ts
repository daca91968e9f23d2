import { drawWiring } from '../../server/core/summary/drawing/drawing-svg.ts';
import { arrange, exampleDrawings, makeLarge } from '../core/drawing/arranged.ts';
import { medianOf } from './measure.ts';

/** How long a link takes to be laid out and drawn, in ms: in the examples, and in a machine of 60 parts and 300 links. */
export async function measureDrawings(rounds: number): Promise<{ examples: number; large: number }> {
  const examples = exampleDrawings().map(([, drawing]) => drawing);
  const links = examples.reduce((sum, drawing) => sum + drawing.links.length, 0);
  const big = makeLarge();
  const times = { examples: [] as number[], large: [] as number[] };
  for (let round = -1; round < rounds; round++) {
    const from = performance.now();
    for (const drawing of examples) await drawWhole(drawing);
    const between = performance.now();
    await drawWhole(big);
    if (round < 0) continue; // the first loads and warms up
    times.examples.push((between - from) / links);
    times.large.push((performance.now() - between) / big.links.length);
  }
  return { examples: medianOf(times.examples), large: medianOf(times.large) };
}

async function drawWhole(drawing: Parameters<typeof arrange>[0]): Promise<void> {
  const { plan, laidOut } = await arrange(drawing);
  drawWiring(plan, laidOut);
}
