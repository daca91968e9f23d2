import fs from 'node:fs';
import { EXAMPLE_FOLDER } from '../support/example.ts';
import { makeFolder } from '../support/folder.ts';
import { type Client, startClient, uriOf } from '../support/lsp-client.ts';
import { type Random, randomFrom } from '../support/random.ts';
import { change } from './change.ts';
import { EDITS, type Edit, placesForBursts } from './edits.ts';
import { timeParse } from './measure.ts';
import { readUse } from './use.ts';

const MACHINE = uriOf('examples/gantry-router/bench.machine.yaml');
const WARM_UP = 1;
const PATIENCE = 60_000;
/** Somebody leans on a key, or a fast typist does not look up: so many keys, so far apart. */
const BURST = { keys: 30, every: 15 } as const; // ms

/** What was measured of the built server over stdio on one text, in ms: one figure for each round. */
export interface Session {
  /** From the change to its findings, by the kind of edit. */
  readonly edits: ReadonlyMap<string, readonly number[]>;
  /** The bare parse of the same text, in between. */
  readonly parse: readonly number[];
  /** From the question to the answer, where the change was sent just before it. */
  readonly hover: readonly number[];
  readonly completion: readonly number[];
  /** From the last key of a burst to the findings of what was typed. */
  readonly burst: readonly number[];
  /** The most memory that the server had at once, in MB; undefined where the system does not tell. */
  readonly peak: number | undefined;
  /** How many findings the text has, so that nobody praises a server that finds nothing. */
  readonly findings: number;
}

/** How often each thing is done. */
export interface Rounds {
  /** Of each kind of edit. */
  readonly edits: number;
  readonly bursts: number;
}

/** Edits a text at seeded places through the built server and takes every edit back, waiting for the findings each time. */
export async function measureSession(text: string, rounds: Rounds): Promise<Session> {
  const client = await startClient({ folder: EXAMPLE_FOLDER });
  try {
    client.open(MACHINE, text);
    const findings = (await client.waitForDiagnostics(MACHINE, PATIENCE)).length;
    const desk = { client, text, random: randomFrom(2) };
    const edits = new Map(Object.keys(EDITS).map((kind) => [kind, [] as number[]]));
    const [parse, hover, completion]: [number[], number[], number[]] = [[], [], []];
    for (let round = -WARM_UP; round < rounds.edits; round++) {
      for (const [index, [kind, edit]] of Object.entries(EDITS).entries()) {
        const chosen = edit(text, desk.random);
        const published = await timeEdit(desk, chosen);
        // In turn, since each needs an edit of its own.
        const isHover = (round + index) % 2 === 0;
        const answered = await timeQuestion(desk, chosen, isHover ? client.hover : client.complete);
        if (round < 0) continue;
        edits.get(kind)?.push(published);
        (isHover ? hover : completion).push(answered);
      }
      const parsed = timeParse(text);
      if (round >= 0) parse.push(parsed);
      // This process has a tree to collect now, which is not to count as the server's time.
      await timeEdit(desk, EDITS.figure(text, desk.random));
    }
    const burst: number[] = [];
    for (let time = 0; time < rounds.bursts; time++) burst.push(await timeBurst(desk));
    return { edits, parse, hover, completion, burst, peak: readUse(client.process.pid)?.peak, findings };
  } finally {
    await client.stop();
  }
}

/**
 * Starts servers, one after the other, and opens a text in each: times from the start of the process, in ms. They are
 * started as our extension starts them, with a folder for what was compiled; the first one fills it and is not counted.
 */
export async function measureStarts(
  text: string,
  times: number,
): Promise<{ readonly answer: readonly number[]; readonly findings: readonly number[] }> {
  const [answer, findings]: [number[], number[]] = [[], []];
  const compiled = makeFolder({});
  const env = { ...process.env, NODE_COMPILE_CACHE: compiled };
  for (let time = -WARM_UP; time < times; time++) {
    const from = performance.now();
    const client = await startClient({ folder: EXAMPLE_FOLDER, env });
    const answered = performance.now() - from;
    client.open(MACHINE, text);
    await client.waitForDiagnostics(MACHINE, PATIENCE);
    const found = performance.now() - from;
    await client.stop();
    if (time < 0) continue;
    answer.push(answered);
    findings.push(found);
  }
  fs.rmSync(compiled, { recursive: true });
  return { answer, findings };
}

/** An open text and who works at it. */
interface Desk {
  readonly client: Client;
  readonly text: string;
  readonly random: Random;
}

async function timeEdit(desk: Desk, edit: Edit): Promise<number> {
  const from = performance.now();
  const takeBack = change(desk.client, MACHINE, desk.text, edit);
  await desk.client.waitForDiagnostics(MACHINE, PATIENCE);
  const taken = performance.now() - from;
  takeBack();
  await desk.client.waitForDiagnostics(MACHINE, PATIENCE);
  return taken;
}

async function timeQuestion(
  desk: Desk,
  edit: Edit,
  ask: Client['hover'] | Client['complete'],
): Promise<number> {
  const position = desk.client.positionAt(MACHINE, edit.from);
  const takeBack = change(desk.client, MACHINE, desk.text, edit);
  const from = performance.now();
  await ask(MACHINE, position);
  const taken = performance.now() - from;
  await desk.client.waitForDiagnostics(MACHINE, PATIENCE);
  takeBack();
  await desk.client.waitForDiagnostics(MACHINE, PATIENCE);
  return taken;
}

async function timeBurst(desk: Desk): Promise<number> {
  const { client, text, random } = desk;
  const at = random.oneOf(placesForBursts(text));
  let typed = '';
  for (let key = 0; key < BURST.keys; key++) {
    await new Promise((done) => setTimeout(done, BURST.every));
    const figure = String(1 + random.below(9));
    change(client, MACHINE, text, { from: at + typed.length, to: at + typed.length, typed: figure });
    typed += figure;
  }
  const from = performance.now();
  await client.waitForDiagnostics(MACHINE, PATIENCE);
  const taken = performance.now() - from;
  const [start, end] = [client.positionAt(MACHINE, at), client.positionAt(MACHINE, at + typed.length)];
  client.replace(MACHINE, { start, end }, '');
  await client.waitForDiagnostics(MACHINE, PATIENCE);
  return taken;
}
