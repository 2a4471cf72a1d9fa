// A table to keep, made here of what stands on the page.

/** Saves `text` as "<name>.csv", for spreadsheets that want to be told that it is UTF-8. */
export function download(name: string, text: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob(['\ufeff', text], { type: 'text/csv;charset=utf-8' }));
  link.download = `${name}.csv`.toLowerCase().replace(/[^\w.-]+/g, '-');
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}
