import { documentStore } from '../session/index.ts';
import { NameField } from '../theme/index.ts';
import type { RecordSheet } from './fields.ts';

/** The name of the selected record, edited where it stands. The turntable has none. */
export function RecordTitle({ sheet }: { readonly sheet: RecordSheet }) {
  const { rename, title } = sheet;
  if (!rename) return <h2>{title}</h2>;
  return (
    <NameField
      className="kg-inspector-title"
      label="Name"
      name={title}
      maxLength={120}
      onRename={(name) => documentStore.apply(`Rename ${title}`, [rename(name)])}
    />
  );
}
