import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

const ROOT = path.join(import.meta.dirname, '..');

/**
 * Writes generated files, or with `--check` on the command line compares them with what is there and ends with exit
 * code 1, naming each file that differs.
 * @param files contents by path from the project's root
 */
export function writeGenerated(files: ReadonlyMap<string, string>): void {
  const check = process.argv.includes('--check');
  for (const [file, text] of files) {
    const place = path.join(ROOT, file);
    if (readIfThere(place) === text) continue;
    if (check) {
      console.error(`${file} is not in step with its source: run the script without --check and commit it.`);
      process.exitCode = 1;
    } else {
      mkdirSync(path.dirname(place), { recursive: true });
      writeFileSync(place, text);
      console.log(`wrote ${file}`);
    }
  }
}

function readIfThere(place: string): string | undefined {
  try {
    return readFileSync(place, 'utf8');
  } catch {
    return undefined;
  }
}
