import { folder, LevaPanel, useControls, useCreateStore } from 'leva';
import { useEffect, useRef } from 'react';
import { documentStore, setDragging } from '../session/index.ts';
import type { Field, RecordSheet } from './fields.ts';
import { isFolded, useGroupFolding } from './groupFolding.ts';
import { levaInput, levaValue, patchFromLeva } from './levaSchema.ts';
import { LEVA_THEME } from './levaTheme.ts';
import { useComponentNames } from './useComponentNames.ts';

/** leva marks the page so while a value is scrubbed or a slider is held. */
const SCRUBBING_CLASS = 'leva__panel__dragged';

/**
 * The fields of one record as a docked leva panel. The panel holds copies: what is entered becomes a command, and what
 * the document says afterwards is put back into the panel.
 */
export function SheetPanel({ sheet }: { readonly sheet: RecordSheet }) {
  const store = useCreateStore();
  const sheetRef = useRef(sheet);
  sheetRef.current = sheet;
  const scrubbing = useRef(false);

  const onEdit = (shown: Field, value: unknown) => {
    const { change, title, groups } = sheetRef.current;
    // The field as it stands now; the schema was built when the panel opened.
    const field = groups.flatMap((group) => group.fields).find((entry) => entry.key === shown.key) ?? shown;
    const patch = patchFromLeva(field, value);
    if (patch === null) return;
    const label = `${field.label} of ${title}`;
    if (!document.body.classList.contains(SCRUBBING_CLASS)) {
      documentStore.apply(label, [change(patch)]);
      return;
    }
    if (!scrubbing.current) {
      scrubbing.current = true;
      documentStore.begin(label);
      if (!field.actsOnFilm) setDragging(true);
    }
    documentStore.update([change(patch)]);
  };
  const onEditEnd = () => {
    if (!scrubbing.current) return;
    scrubbing.current = false;
    documentStore.commit();
    setDragging(false);
  };

  const [, set] = useControls(
    () =>
      Object.fromEntries(
        sheet.groups.map((group, index) => [
          group.title,
          folder(
            Object.fromEntries(
              group.fields.map((field) => [field.key, levaInput(field, { onEdit, onEditEnd })]),
            ) as Parameters<typeof folder>[0],
            { collapsed: isFolded(group.title, index) },
          ),
        ]),
      ) as Parameters<typeof folder>[0],
    { store },
  );

  const panelRef = useRef<HTMLDivElement>(null);
  useGroupFolding(
    panelRef,
    sheet.groups.map(({ title }) => title),
  );

  useComponentNames(panelRef, sheet);

  const fields = sheet.groups.flatMap((group) => group.fields);
  const values = JSON.stringify(fields.map(levaValue));
  // biome-ignore lint/correctness/useExhaustiveDependencies: `values` stands for the fields by content.
  useEffect(() => {
    const current: Record<string, unknown> = Object.fromEntries(fields.map((field) => [field.key, levaValue(field)]));
    (set as (next: Record<string, unknown>) => void)(current);
  }, [values]);

  return (
    <div ref={panelRef}>
      <LevaPanel store={store} fill flat titleBar={false} hideCopyButton theme={LEVA_THEME} />
    </div>
  );
}
