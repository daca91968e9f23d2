import { globSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';

const ROOT = path.join(import.meta.dirname, '../..');
const read = (file: string) => readFileSync(path.join(ROOT, file), 'utf8');

// The descriptions of choices are an annotation that editors read and validators do not know.
const ajv = new Ajv2020({ allErrors: true, allowUnionTypes: true, keywords: ['enumDescriptions'] });

/** The JSON Schemas as they are committed, since those are what other editors get. */
const KINDS = {
  machine: ajv.compile(JSON.parse(read('schemas/machine.schema.json'))),
  part: ajv.compile(JSON.parse(read('schemas/part.schema.json'))),
};

describe.for(Object.entries(KINDS))('the JSON Schema of a %s', ([kind, validate]) => {
  const shipped = globSync([`examples/**/*.${kind}.yaml`, `server/parts/**/*.${kind}.yaml`], { cwd: ROOT });
  const valid = globSync(`tests/schemas/fixtures/${kind}/{valid,finer}/*.yaml`, { cwd: ROOT });
  const invalid = globSync(`tests/schemas/fixtures/${kind}/{invalid,kinder}/*.yaml`, { cwd: ROOT });

  test('has something to judge', () => {
    for (const files of [shipped, valid, invalid]) expect(files.length).toBeGreaterThan(0);
  });

  test.for([...shipped, ...valid])('accepts %s', (file) => {
    validate(parse(read(file)));
    expect(validate.errors ?? []).toEqual([]);
  });

  test.for(invalid)('refuses %s', (file) => {
    expect(validate(parse(read(file)))).toBe(false);
  });
});
