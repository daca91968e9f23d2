import { blocks } from '../support/markdown.ts';
import type { Stored } from './part.ts';
import { PARTS } from './parts.ts';

const HEAD = `# Figures of the project

Measured, not estimated; whatever is missed is said. \`npm run quality\` measures and writes this page anew, and with names
of parts behind it (\`npm run quality -- speed\`) only those. Figures of time say as much of the machine, and of what else
it does meanwhile, as of the program; each part names the kind of machine and the day.`;

/** The page docs/quality.md. Throws where a part has no figures. */
export function renderPage(stored: Stored): string {
  const parts = PARTS.map(({ name, title, about, show }) => {
    const made = stored[name];
    if (!made) throw new Error(`there are no figures of ${name}: npm run quality -- ${name}`);
    return blocks(`## ${title}`, about, show(made.figures), `Made on ${made.day}: ${made.machine}.`);
  });
  return `${blocks(HEAD, ...parts)}\n`;
}
