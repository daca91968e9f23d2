import { blocks } from '../support/markdown.ts';
import type { Stored } from './part.ts';
import { PARTS } from './parts.ts';

const HEAD = `# Figures of the project

Measured, not estimated; whatever is missed is said. \`npm run quality\` measures and writes this page anew, and with names
of parts behind it (\`npm run quality -- speed\`) only those. Figures of time say as much of the machine, and of what else
it does meanwhile, as of the program; each part names the kind of machine and the day.`;

/** The page docs/quality.md. A part that was never measured says so. */
export function renderPage(stored: Stored): string {
  const parts = PARTS.map(({ name, title, about, show }) => {
    const made = stored[name];
    const said = made
      ? [show(made.figures), `Made on ${made.day}: ${made.machine}.`]
      : [`Not measured yet: \`npm run quality -- ${name}\`.`];
    return blocks(`## ${title}`, about, ...said);
  });
  return `${blocks(HEAD, ...parts)}\n`;
}
