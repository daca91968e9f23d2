/**
 * Makes a generic part sheet to start from: `npm run new:part NAME [CLASS]`, e.g. `npm run new:part reed-contact switch`.
 * The sheet is complete and without findings, so that every figure can be changed under the eyes of the checks.
 */
import fs from 'node:fs';
import path from 'node:path';

const NAME = /^[a-z0-9]+(?:[-.][a-z0-9]+)*$/;
const [name = '', partClass = 'switch', ...more] = process.argv.slice(2);

if (!NAME.test(name) || !NAME.test(partClass) || more.length > 0) {
  console.error(
    'Usage: npm run new:part NAME [CLASS], with small letters, digits and hyphens: npm run new:part reed-contact switch',
  );
  process.exitCode = 2;
} else {
  const file = path.join('server/parts', `${name}.part.yaml`); // npm runs scripts in the project folder
  if (fs.existsSync(file)) {
    console.error(`${file} is there already.`);
    process.exitCode = 1;
  } else {
    fs.writeFileSync(file, sheetOf(name, partClass));
    console.log(`${file} made. Machines use it as generic/${name}.`);
    console.log(
      'Next: write its terminals and circuits (docs/format.md), and use it in an example or a test.',
    );
  }
}

function sheetOf(title, kind) {
  const words = title.replaceAll('-', ' ');
  return `part: ${words.charAt(0).toUpperCase()}${words.slice(1)}
maker: none (generic)
class: ${kind}
designator: S
source: Typical figures of the trade; check your own datasheet

terminals:                       # as printed on the part, in the order in which they stand there
  contact: [C1, C2]

circuits:                        # what is inside, between the terminals
  contact: { contact: [C1, C2], rest: open, voltage: 30 V, current: 500 mA }

facts:
  conductors-per-terminal: 2
`;
}
