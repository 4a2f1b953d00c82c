/** Leaves the field that is being typed in, so that it takes what stands in it. */
export function leaveField(): void {
  const field = globalThis.document?.activeElement;
  if (field instanceof HTMLElement) field.blur();
}
