/** The date of the machine's clock, ISO. */
export function today(): string {
  return new Date().toISOString().slice(0, 10);
}
