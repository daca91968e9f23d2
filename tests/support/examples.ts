import fs from 'node:fs';
import path from 'node:path';
import { ROOT } from './lsp-client.ts';

/** One example as its texts, by their paths in its folder. */
export interface Example {
  readonly name: string;
  /** The path of its machine. */
  readonly machine: string;
  readonly files: ReadonlyMap<string, string>;
}

/** Reads all examples, in the order of their names. */
export function readExamples(): readonly Example[] {
  const examples = path.join(ROOT, 'examples');
  return fs
    .readdirSync(examples)
    .sort()
    .map((name) => readExampleFrom(path.join(examples, name), name));
}

function readExampleFrom(folder: string, name: string): Example {
  const files = new Map(
    fs
      .readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.yaml'))
      .sort()
      .map((file) => [file.split(path.sep).join('/'), fs.readFileSync(path.join(folder, file), 'utf8')]),
  );
  const machine = [...files.keys()].find((file) => file.endsWith('.machine.yaml')) ?? '';
  return { name, machine, files };
}
