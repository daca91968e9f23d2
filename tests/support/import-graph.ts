import path from 'node:path';

/** One import: who, what as written, and for a relative one the file it means, from the top of the repository. */
export interface Import {
  readonly from: string;
  readonly specifier: string;
  readonly target: string | undefined;
  readonly typeOnly: boolean;
}

// Only what can stand between the keyword and `from`; so text in comments and strings is not taken for an import.
const FROM = /^[ \t]*(?:import|export)\s+(type\s+)?(?:[\w$*{][\w$\s,*{}]*?\s)?from\s+['"]([^'"]+)['"]/gm;
const BARE = /^[ \t]*import\s+['"]([^'"]+)['"]/gm;
const DYNAMIC = /\bimport\(\s*['"]([^'"]+)['"]/g;

/** All imports of a TypeScript file, static, re-exporting, bare and dynamic. */
export function importsOf(file: string, text: string): readonly Import[] {
  const found = [
    ...[...text.matchAll(FROM)].map(([, type, specifier]) => ({ specifier, typeOnly: type !== undefined })),
    ...[...text.matchAll(BARE)].map(([, specifier]) => ({ specifier, typeOnly: false })),
    ...[...text.matchAll(DYNAMIC)].map(([, specifier]) => ({ specifier, typeOnly: false })),
  ];
  return found.flatMap(({ specifier, typeOnly }) =>
    specifier === undefined ? [] : [{ from: file, specifier, typeOnly, target: targetOf(file, specifier) }],
  );
}

function targetOf(file: string, specifier: string): string | undefined {
  if (!specifier.startsWith('.')) return undefined;
  return path.posix.normalize(path.posix.join(path.posix.dirname(file), specifier));
}

/** What a part of the repository may import: folders or files of the repository, and packages (`node:` for all of Node). */
export interface Ring {
  readonly name: string;
  readonly folder: string;
  readonly files: readonly string[];
  readonly packages: readonly string[];
  /** Files or folders of which only types may be taken. */
  readonly types?: readonly string[];
}

/** The ring of a file: the one with the longest folder that holds it. */
export function ringOf(rings: readonly Ring[], file: string): Ring | undefined {
  return rings
    .filter((ring) => isUnder(file, ring.folder))
    .toSorted((a, b) => b.folder.length - a.folder.length)[0];
}

/** Imports that go against the directions, each said in one line. */
export function findViolations(rings: readonly Ring[], imports: readonly Import[]): readonly string[] {
  return imports.flatMap((each) => {
    const ring = ringOf(rings, each.from);
    if (!ring) return [`${each.from} belongs to no ring`];
    if (isAllowed(ring, rings, each)) return [];
    return [`${each.from} (${ring.name}) imports ${each.target ?? each.specifier}`];
  });
}

function isAllowed(ring: Ring, rings: readonly Ring[], { target, specifier, typeOnly }: Import): boolean {
  if (target === undefined) return ring.packages.some((name) => isPackage(specifier, name));
  if (ringOf(rings, target) === ring) return true;
  const allowed = [...ring.files, ...(typeOnly ? (ring.types ?? []) : [])];
  return allowed.some((place) => isUnder(target, place));
}

const isPackage = (specifier: string, name: string): boolean =>
  name.endsWith(':') ? specifier.startsWith(name) : specifier === name || specifier.startsWith(`${name}/`);

const isUnder = (file: string, place: string): boolean => file === place || file.startsWith(`${place}/`);
