// Which field of a form keeps it from being kept: a button far from that field can say so, and a press that
// was refused goes there.
import { tick } from 'svelte';

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

/** The focus goes to a field, which then stands in the midst of the window with its sentence. */
export function goTo(field: HTMLElement): void {
  field.focus({ preventScroll: true });
  field.scrollIntoView({ block: 'center' });
}

/** Once for the whole page: a form whose press was refused is led to its first field at fault, which on a
 *  short window stands far above the button. The returned function takes it off again. */
export function leadToFaults(page: Document = document): () => void {
  async function submitted({ target }: Event) {
    await tick(); // the fields mark what is wrong once keeping was tried
    const wrong = target instanceof HTMLFormElement && fieldAtFault(target);
    if (wrong) goTo(wrong.field);
  }
  const heard = (event: Event) => void submitted(event);
  page.addEventListener('submit', heard); // after the form itself has heard of it
  return () => page.removeEventListener('submit', heard);
}
