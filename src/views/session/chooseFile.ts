/** Asks for a file by the field of the page; null when the person changed their mind. Call from a press or a key. */
export function chooseFile(accept: string, page: Document = document): Promise<File | null> {
  return new Promise((resolve) => {
    const field = page.createElement('input');
    field.type = 'file';
    field.accept = accept;
    field.addEventListener('change', () => resolve(field.files?.[0] ?? null));
    field.addEventListener('cancel', () => resolve(null));
    field.click();
  });
}
