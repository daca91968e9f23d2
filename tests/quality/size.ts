import fs from 'node:fs';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import { ROOT } from '../support/lsp-client.ts';
import { blocks, table } from '../support/markdown.ts';
import { figure, type Part } from './part.ts';

interface Sizes {
  /** Files and lines of TypeScript by folder. */
  readonly sources: Readonly<Record<string, { readonly files: number; readonly lines: number }>>;
  /** Bytes of what is built, plain and compressed. */
  readonly bundles: Readonly<Record<string, { readonly plain: number; readonly compressed: number }>>;
}

const FOLDERS = [
  'schemas',
  'server/core',
  'server/protocol',
  'server/command',
  'client',
  'tests',
  '.project',
];

/** How large the project and its bundles are; their budgets are kept by the gate `budget`. */
export const size: Part<Sizes> = {
  name: 'size',
  title: 'Size',
  about: 'Lines of TypeScript that are written by hand, with their comments, and what is built of them.',
  read: () => ({
    sources: Object.fromEntries(FOLDERS.map((folder) => [folder, countIn(folder)])),
    bundles: Object.fromEntries(
      fs
        .readdirSync(path.join(ROOT, 'dist'))
        .filter((name) => /\.(?:c?js|css)$/.test(name))
        .map((name) => [name, weigh(fs.readFileSync(path.join(ROOT, 'dist', name)))]),
    ),
  }),
  show: ({ sources, bundles }) =>
    blocks(
      table(
        ['folder', 'files', 'lines'],
        Object.entries(sources).map(([folder, { files, lines }]) => [
          `\`${folder}\``,
          figure(files, 0),
          figure(lines, 0),
        ]),
      ),
      table(
        ['bundle', 'kB', 'kB, gzip'],
        Object.entries(bundles).map(([name, { plain, compressed }]) => [
          `\`${name}\``,
          figure(plain / 1000, 1),
          figure(compressed / 1000, 1),
        ]),
      ),
    ),
};

function countIn(folder: string): { files: number; lines: number } {
  const files = fs
    .readdirSync(path.join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => /(?<!\.generated)\.ts$/.test(file));
  const lines = files.map(
    (file) => fs.readFileSync(path.join(ROOT, folder, file), 'utf8').split('\n').length - 1,
  );
  return { files: files.length, lines: lines.reduce((sum, count) => sum + count, 0) };
}

const weigh = (bytes: Buffer) => ({ plain: bytes.length, compressed: gzipSync(bytes).length });
