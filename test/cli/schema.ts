import Ajv2020 from 'ajv/dist/2020';
import { expect } from 'vitest';
import checkSchema from '../../src/hosts/cli/schema/check.schema.json';
import compareSchema from '../../src/hosts/cli/schema/compare.schema.json';
import findSchema from '../../src/hosts/cli/schema/find.schema.json';
import formulasSchema from '../../src/hosts/cli/schema/formulas.schema.json';

const ajv = new Ajv2020({ allErrors: true, strict: true, allowUnionTypes: true });
const validators = {
  check: ajv.compile(checkSchema),
  find: ajv.compile(findSchema),
  compare: ajv.compile(compareSchema),
  formulas: ajv.compile(formulasSchema),
};

/** What was printed, read back; the test fails where the schema that ships does not describe it. */
export function valid<T>(of: keyof typeof validators, text: string): T {
  const data: unknown = JSON.parse(text);
  const validate = validators[of];
  validate(data);
  expect(validate.errors ?? []).toEqual([]);
  return data as T;
}
