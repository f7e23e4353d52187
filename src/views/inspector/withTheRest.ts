import type { FieldGroup } from './fields.ts';
import { objectSchemaOf, schemaFields } from './schemaFields.ts';

/** Of every record: said by the sheet itself. */
const SAID = ['id', 'name', 'kind'];

/** The groups of a sheet, and one more for plain values of the record that none of them shows. */
export function withTheRest(
  type: unknown,
  record: object,
  title: string,
  groups: readonly FieldGroup[],
  elsewhere: readonly string[] = [],
): FieldGroup[] {
  const schema = objectSchemaOf(type, record);
  const shown = groups.flatMap(({ fields }) => fields.map(({ key }) => key));
  const rest = schema
    ? schemaFields(schema, record, { length: 'cm', patch: (part) => part, skip: [...SAID, ...shown, ...elsewhere] })
    : [];
  return [...groups, ...(rest.length > 0 ? [{ title, fields: rest }] : [])];
}
