// Which field of a form keeps it from being kept, as a button far from that field can say.

const words = (element: Element | null | undefined): string =>
  element?.textContent.replace(/\s+/g, ' ').trim() ?? '';

/** The first field of a form that is marked at fault, and what it is called there; undefined where none is. */
export function fieldAtFault(form: ParentNode): { field: HTMLElement; label: string } | undefined {
  const field = form.querySelector<HTMLElement>('[aria-invalid="true"]');
  if (!field) return undefined;
  const label = words((field as HTMLInputElement).labels?.[0]) || field.getAttribute('aria-label');
  const legend = words(field.closest('fieldset')?.querySelector('legend'));
  return { field, label: [legend, label].filter(Boolean).join(', ') };
}
