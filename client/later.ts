/** Work that waits until the typing pauses. */

/** A function that runs `work` once, `ms` milliseconds after it was last called, and can be told to forget it. */
export function later(ms: number, work: () => void): { (): void; dispose(): void } {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const soon = () => {
    clearTimeout(timer);
    timer = setTimeout(work, ms);
  };
  soon.dispose = () => clearTimeout(timer);
  return soon;
}
