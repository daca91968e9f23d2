import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * The names, versions and licence texts of all packages that went into the bundles, as their licences ask.
 * `inputs` are the paths that the bundler read, relative to the root.
 */
export function listNotices(root, inputs) {
  const folders = new Set(inputs.map(packageFolder).filter((folder) => folder !== undefined));
  const notices = [...folders]
    .sort((a, b) => a.localeCompare(b))
    .map((folder) => describePackage(join(root, folder)));
  return `Fettle contains the following packages.\n\n${notices.join('\n')}`;
}

function packageFolder(path) {
  return /^(?:.*\/)?node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path)?.[0];
}

function describePackage(folder) {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const file = readdirSync(folder).find((entry) => /^licen[cs]e/i.test(entry));
  const text = file && existsSync(join(folder, file)) ? readFileSync(join(folder, file), 'utf8').trim() : '';
  return `${'='.repeat(78)}\n${name} ${version} (${license}), source: npm package ${name}@${version}\n\n${text}\n`;
}
