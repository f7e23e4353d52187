/** Hands a file to the browser to keep. */
export function downloadFile(fileName: string, content: Blob): void {
  const url = URL.createObjectURL(content);
  const link = document.createElement('a');
  link.href = url;
  link.download = fileName;
  link.click();
  // The browser takes the blob over in the click; some do so only once the task has ended.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
