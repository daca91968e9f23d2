/**
 * The words of the format, for whoever reads definitions. Nothing here loads zod: the schemas themselves (machine.ts
 * and sheet.ts) are compiled when the project is built, and the program reads what came of it.
 */
export { CIRCUIT_KINDS } from './circuit-kinds.ts';
export { CLASSES, FACTS_BY_CLASS } from './classes.ts';
export type { Leaf } from './leaf.ts';
export { MEANINGS } from './meanings.ts';
export { AXES, LINEAR_AXES, ROLE_TEXTS, ROLES, ROTARY_AXES } from './roles.ts';
